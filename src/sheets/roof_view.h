// A slope seen square on: its units, what stands on it, and every piece of lead in its place.
#pragma once

#include "words.h"

#include <vector>

namespace lapwright::sheets {

// In mm of paper at `scale`; the origin is the slope's own (u, s) = (0, 0). Lead that is seen is grey, lead
// under the units dashed.
// `ring`: size of the marks.
draw::Drawing roof_view(const Sources& sources, const job::Slope& slope, double scale,
                        double ring = draw::pt(18));

// The part of it round a stack or a pipe, with the lead of that junction alone named and measured from its
// own left and lower edges. Empty when the junction has no lead.
draw::Drawing roof_around(const Sources& sources, const job::Slope& slope, const job::Junction& junction,
                          double scale);

}  // namespace lapwright::sheets
