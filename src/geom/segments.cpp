#include "segments.h"

#include <lapwright/geom/polygon.h>

#include <algorithm>

namespace lapwright::geom {

namespace {

bool boxes_apart(GridPoint a, GridPoint b, GridPoint c, GridPoint d) {
  return std::max(a.x, b.x) < std::min(c.x, d.x) || std::max(c.x, d.x) < std::min(a.x, b.x) ||
         std::max(a.y, b.y) < std::min(c.y, d.y) || std::max(c.y, d.y) < std::min(a.y, b.y);
}

}  // namespace

bool on_segment(GridPoint p, GridPoint a, GridPoint b) {
  return !boxes_apart(p, p, a, b) && turn(a, b, p) == 0;
}

bool segments_touch(GridPoint a, GridPoint b, GridPoint c, GridPoint d) {
  if (boxes_apart(a, b, c, d)) return false;
  // With overlapping boxes, each segment must not lie strictly on one side of the other; that settles
  // collinear segments as well, whose overlap the boxes have decided.
  return turn(a, b, c) * turn(a, b, d) <= 0 && turn(c, d, a) * turn(c, d, b) <= 0;
}

}  // namespace lapwright::geom
