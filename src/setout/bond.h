// Bond: the units of each course from side to side, with no half units at a wall.
#pragma once

#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

namespace lapwright::setout {

// The widest gap between the wall and the units beside it, anywhere between `from` and `to` up the slope.
Length widest_gap(const job::Junction& junction, const practice::Pack& pack);

// Fills `layout.rows`, and adds findings about narrow cuts and sidelap.
void lay_units(const job::Slope& slope, const practice::Pack& pack, job::SlopeLayout& layout);

}  // namespace lapwright::setout
