// How lead is drawn where it is cut through: one thick line, sheets on each other a little apart.
#pragma once

#include <lapwright/draw/drawing.h>
#include <lapwright/draw/style.h>

#include <vector>

namespace lapwright::sheets {

inline constexpr double kLead = 0.9;   // thick, mm of paper
inline constexpr double kApart = 1.7;  // sheets on each other, middle to middle, mm of paper

draw::Path lead_line(const std::vector<draw::Point>& points);

}  // namespace lapwright::sheets
