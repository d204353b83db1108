// Saddles: lead over the ridge where it ends against a stack that stands through it.
//
//      y ^   +----+-----------+        two legs, one on each slope, folded over the ridge; an upstand on each
//        |   |up B|   leg B   |        against the stack's side. The upstands part at the ridge, where the
//        |   + boss - ridge  -|        sheet is bossed: it has to reach round both slopes' angles.
//        |   |up A|   leg A   |
//        |   +----+-----------+
//        +---------------------> x  out from the stack along the ridge
#pragma once

#include "place.h"

namespace lapwright::pieces {

// The saddle at one side face of a stack across the ridge, against slope `other`. REQUIRES a side face that
// ends at the ridge.
void plan_saddle(const Place& place, const job::Slope& other, job::JunctionPlan& plan);

}  // namespace lapwright::pieces
