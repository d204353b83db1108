// The water trace as it is drawn: the courses around the weakest spot, the lead, where water creeps under
// what lies on top, and the way of the first leak.
#pragma once

#include "pages.h"

namespace lapwright::sheets {

// mm of paper at `scale`, of the slope as seen from above it. Words keep their size.
draw::Drawing water_view(const Words& words, const job::Trace& trace, double scale);

// A table of every measure beside its limit, then a page for each junction that was traced. Nothing where the
// plan was not examined.
void add_measures(Sheets& sheets);
void add_water(Sheets& sheets);

}  // namespace lapwright::sheets
