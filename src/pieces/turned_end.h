// Where a top abutment meets a wall at the slope's side, as in a lean-to's corner: the end of the top apron
// turns up that wall, under the wall's own flashing.
//
//      top wall      y ^            |          The net's strip past the corner folds up twice: beside the
//      cover
//    ──────────┬       |  upstand   | B        (A) and beside the upstand (B). On the wall there are 90° +
//    pitch
//              │ B ┐   |            |          between the slope and the plumb corner, on the flat sheet
//              180°:
//       return │   ├   +- - - - - - o          A and B take half of that room each. What is left between them
//       is
//              │ A ┘   |   cover    | A        cut out and the two edges, of one length, are welded; or it is
//     slope  ╱ │       +------------+--> x     worked away.
#pragma once

#include "place.h"

#include <lapwright/job/plan.h>

#include <string>

namespace lapwright::pieces {

struct TurnedEnds {
  std::string left;  // name of the junction that the end meets; empty: none there
  std::string right;
  Length up;     // what the end turns up that wall
  Length aside;  // from the corner's height on the net to where either seam meets the strip's end
  Length seam;   // length of either
  bool welded = false;

  bool any() const { return !left.empty() || !right.empty(); }
  Length at_left() const { return left.empty() ? Length{} : up; }
  Length at_right() const { return right.empty() ? Length{} : up; }
};

// Of a plumb top abutment; nothing of any other face. A wall counts that runs up the slope, is plumb, and
// ends where the abutment does.
TurnedEnds turned_ends(const Place& place);

std::vector<job::Figure> turned_end_figures(const Place& place, const TurnedEnds& ends);

// The corners' finding, and the step that turns the end of the piece that meets one.
void say_turned_ends(const Place& place, const TurnedEnds& ends, job::JunctionPlan& plan);
job::WorkStep turn_end_step(const Place& place, const TurnedEnds& ends, bool right);

}  // namespace lapwright::pieces
