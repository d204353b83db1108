// Soakers: one piece under each course at a wall, turned up it.
//
//        y ^  wall
//          |  +---------------------------+   upstand
//          |  |                           |
//      leg +- +- - - - - - - - - - -+ - - +   fold 1, up 90
//          |  |                     |     |
//          |  |  leg under the unit | hook|   fold 2 (hooked): down over the head of the unit below
//          |  +---------------------+-----+
//          +---------------------------------> x  up the slope; x = 0 is the tail, set back under the unit
//          above
//
// On-slope length to the head of the unit that it lies on is L − G (tails and heads, so that diminishing
// units need nothing else). The leg reaches gap + half a unit, never less than gap + the least leg. The
// upstand stands proud of the finished unit by the rule's amount at the thickest unit of the survey's spread.
//
// Beside a skew face the tail and the head stay level with the courses and the fold runs aslant, at its true
// angle.
//
// Properties: the tail is never seen (set back under the unit above); the lap of two neighbours is never less
// than the headlap less the set-back; no soaker reaches past the slope's top edge.
#pragma once

#include "place.h"

namespace lapwright::pieces {

// Adds this face's soakers to `plan`: pieces with one placement a course, and soaker_of_course.
// REQUIRES a face that the roof lies beside.
void plan_soakers(const Place& place, job::JunctionPlan& plan);

// The finished face of the units above the plane that the soakers lie in, at the thickest of the survey's
// spread.
Length finished_face(const job::Covering& covering);

}  // namespace lapwright::pieces
