// DXF R12 in mm: the format that every cutting table, plotter and CAD program reads. One layer per Layer in
// use, line types for fold, hidden and axis; arcs stay arcs. Text outside ASCII is written as \U+XXXX. Fills
// are not written (R12 has none), hatches are lines.
#pragma once

#include <lapwright/draw/drawing.h>

#include <string>

namespace lapwright::draw {

std::string write_dxf(const Drawing& drawing, std::string_view title = {});

}  // namespace lapwright::draw
