// Secret gutters: a lead channel beside a wall, below the covering.
//
//                 │ │ flashing
//        wall     │ │
//     ────────────│ │   upstand: `secret_gutter.upstand` above the finished units
//                 │ └─────────── unit ──────
//                 │  gap   ┌── welted edge at the plane that the units lie in (n = 0)
//                 └────────┘   sole, `depth` below it
//
//   net, left hand:  y ^  +--------------------+  upstand, against the wall
//                      |  +- - - - - - - - - - +  fold 1, up
//                      |  |  sole              |
//                      |  +- - - - - - - - - - +  fold 2, up 90
//                      |  +--------------------+  edge, under the units
//                         x along the wall, from its lower end
//
// The units reach over the sole, so the channel lies open to the sky only in the gap beside the wall. Pieces
// of one length, lapped down the slope, upper over lower (slope_lap.h).
//
// Properties: the sole is parallel to the roof at every place; the upstand stands the rule's height above the
// thickest unit; the channel's depth is square to the roof.
#pragma once

#include "place.h"

namespace lapwright::pieces {

// Empty sizes are never planned: false when a finding says why there are no pieces.
bool plan_secret_gutter(const Place& place, job::JunctionPlan& plan);

}  // namespace lapwright::pieces
