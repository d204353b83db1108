// Exact predicates on grid segments, shared by the files of this module.
#pragma once

#include <lapwright/geom/grid.h>

namespace lapwright::geom {

// Cross and dot products of b − a and c − a. Exact as long as the three lie within 2^31 µm of each other.
constexpr std::int64_t cross_of(GridPoint a, GridPoint b, GridPoint c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}
constexpr std::int64_t dot_of(GridPoint a, GridPoint b, GridPoint c) {
  return (b.x - a.x) * (c.x - a.x) + (b.y - a.y) * (c.y - a.y);
}

// p lies on the closed segment a–b.
bool on_segment(GridPoint p, GridPoint a, GridPoint b);

// The closed segments a–b and c–d have a point in common.
bool segments_touch(GridPoint a, GridPoint b, GridPoint c, GridPoint d);

}  // namespace lapwright::geom
