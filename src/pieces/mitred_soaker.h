// Soakers under units that are cut to meet in a mitre along a hip or valley: one to a course.
#pragma once

#include "on_join.h"

#include <lapwright/pieces/plan_slope.h>

namespace lapwright::pieces {

// REQUIRES that both slopes have courses and that these meet.
void plan_mitred_soakers(const JoinPlace& place, SlopePlan& plan);

}  // namespace lapwright::pieces
