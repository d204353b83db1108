// Whether the courses of two slopes can meet at their join: level lines on both.
#pragma once

#include "on_join.h"

#include <lapwright/job/plan.h>

#include <vector>

namespace lapwright::pieces {

// Adds what is to say about the second slope's gauge; `missed` is the level when they cannot meet. False when
// they cannot.
bool judge_courses(const JoinPlace& place, job::Level missed, std::vector<job::Finding>& findings);

}  // namespace lapwright::pieces
