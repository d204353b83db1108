// The lead of an open valley: pieces lapped up the line, and a saddle over its head.
#pragma once

#include "on_join.h"

#include <lapwright/pieces/plan_slope.h>

namespace lapwright::pieces {

void plan_valley(const JoinPlace& place, SlopePlan& plan);

}  // namespace lapwright::pieces
