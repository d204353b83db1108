// Dimensions and chains as lines and text, in millimetres of paper.
#pragma once

#include <lapwright/draw/drawing.h>

namespace lapwright::draw {

// Appends the paths and texts of a dimension or chain to `out`.
void lay_out(const Dimension& dimension, Drawing& out);
void lay_out(const Chain& chain, Drawing& out);

}  // namespace lapwright::draw
