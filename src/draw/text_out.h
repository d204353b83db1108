// Numbers as the writers put them down.
#pragma once

#include <lapwright/base/numbers.h>
#include <lapwright/draw/drawing.h>

#include <string>

namespace lapwright::draw {

inline std::string mm(double value) {
  return trimmed(value, 3);
}  // to the µm
inline std::string pair(Point p) {
  return mm(p.x) + ' ' + mm(p.y);
}

}  // namespace lapwright::draw
