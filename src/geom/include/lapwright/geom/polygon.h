// Simple polygons on the µm grid.
#pragma once

#include <lapwright/geom/grid.h>

#include <lapwright/base/units.h>

#include <cstdint>
#include <span>
#include <vector>

namespace lapwright::geom {

// A closed ring without a repeated last point.
using Ring = std::vector<GridPoint>;

struct Box {
  GridPoint low;
  GridPoint high;
  Grid width() const { return high.x - low.x; }
  Grid height() const { return high.y - low.y; }
};

// Twice the signed area in µm², exact; positive when counter-clockwise. REQUIRES, as every function here
// does, points within 2^31 µm of each other: then each product fits 64 bits, and so does the area of any ring
// that does not wind more than once around.
std::int64_t twice_area(std::span<const GridPoint> ring);
Area area(std::span<const GridPoint> ring);  // absolute

Box bounds(std::span<const GridPoint> ring);  // REQUIRES not empty

// True when the ring has at least three points, no two successive points equal, no edge touching another
// except at the end that successive edges share, and a non-zero area. Straight points are allowed. Exact.
bool is_simple(std::span<const GridPoint> ring);

// Sign of the turn a → b → c: +1 left, −1 right, 0 straight. Exact.
int turn(GridPoint a, GridPoint b, GridPoint c);

enum class Side : std::uint8_t { inside, on_edge, outside };
Side side_of(GridPoint p, std::span<const GridPoint> ring);  // exact

// The ring without points that lie on the straight line through their neighbours (spikes and repeated points
// go as well); it keeps its direction and starts at its first remaining point. Empty when nothing is left.
Ring without_straight_points(std::span<const GridPoint> ring);

// Mirrors in the y axis (x → −x), keeping counter-clockwise rings counter-clockwise, and the first point
// first.
Ring mirrored(std::span<const GridPoint> ring);

// The part of a ring within low.x <= x <= high.x (Sutherland–Hodgman against two upright lines; new points
// are rounded to the grid; no straight points are left). REQUIRES low_x <= high_x and the clipped part to be
// in one piece. Empty when nothing is left.
Ring clipped_between(std::span<const GridPoint> ring, Grid low_x, Grid high_x);

}  // namespace lapwright::geom
