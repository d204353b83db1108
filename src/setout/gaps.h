// Gaps beside walls that are not the same all the way up, or that no lead bridges.
#pragma once

#include "obstacles.h"

#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

namespace lapwright::setout {

void judge_gaps(const job::Slope& slope, const Obstacles& obstacles, const practice::Pack& pack,
                job::SlopeLayout& layout);

}  // namespace lapwright::setout
