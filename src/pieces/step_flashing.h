// Step flashings: lead stepped into the bed joints of a brick wall, in pieces of whole steps.
//
//      ┌───┐                     net of one piece, x along the slope, y square to it
//      │   │╲ turn-in            fold along each step's level edge, away from the viewer (into the joint)
//   ┌──┤   ├─┘                   cut at each inner corner, up the next riser as far as the turn-in stands
//   │  └── ┘ inner corners on the water line
//   └──────────┐
//   foot, on the finished units
//
// Piece length <= the longest piece; laps of whole steps, the smallest number that gives the least lap, upper
// over lower. The turn-in's last corner would jut turn_in × sin θ past the piece's end: it is trimmed square
// to the end, so that the blank is as long as its steps and the limit is measured on the blank.
//
// The wall's own ends are plumb, so the first and the last piece lean there.
//
// Properties: every step edge is on or above the water line; the pieces' runs along the water line less their
// laps add up to the run; no blank is longer than a piece may be, nor wider than width_needed.
#pragma once

#include "place.h"

#include <lapwright/base/fault.h>

namespace lapwright::pieces {

Result<void> plan_step_flashings(const Place& place, job::JunctionPlan& plan);

}  // namespace lapwright::pieces
