// Bond: the units of each course from side to side, with no half units at a wall. What stands in a course's
// way parts it into several rows; the joints stay where they would be without.
#pragma once

#include "obstacles.h"

#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

namespace lapwright::setout {

// Fills `layout.rows`, and adds findings about narrow cuts and sidelap.
void lay_units(const job::Slope& slope, const Obstacles& obstacles, const practice::Pack& pack,
               job::SlopeLayout& layout);

}  // namespace lapwright::setout
