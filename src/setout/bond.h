// Bond: the units of each course from side to side, with no half units at a wall.
#pragma once

#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

namespace lapwright::setout {

// Fills `layout.rows`, and adds findings about narrow cuts and sidelap.
void lay_units(const job::Slope& slope, const practice::Pack& pack, job::SlopeLayout& layout);

}  // namespace lapwright::setout
