// Simple polygons on the µm grid.
#pragma once

#include <lapwright/geom/grid.h>

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

// Twice the signed area in µm², exact; positive when counter-clockwise. REQUIRES extents below 2^31 µm and at most
// 100,000 points (then it fits 64 bits for any net that can be made from a roll).
std::int64_t twice_area(std::span<const GridPoint> ring);
Area area(std::span<const GridPoint> ring);  // absolute

Box bounds(std::span<const GridPoint> ring);  // REQUIRES not empty

// True when the ring has at least three points, no two successive points equal, no edge touching another except at
// shared ends, and a non-zero area. Exact.
bool is_simple(std::span<const GridPoint> ring);

// Sign of the turn a → b → c: +1 left, −1 right, 0 straight. Exact.
int turn(GridPoint a, GridPoint b, GridPoint c);

enum class Side : std::uint8_t { inside, on_edge, outside };
Side side_of(GridPoint p, std::span<const GridPoint> ring);  // exact

// The ring without points that lie on the straight line between their neighbours; it keeps its direction and starts
// at its first remaining point.
Ring without_straight_points(std::span<const GridPoint> ring);

// Mirrors in the y axis (x → −x), keeping counter-clockwise rings counter-clockwise.
Ring mirrored(std::span<const GridPoint> ring);

// The part of a ring within low.x <= x <= high.x (Sutherland–Hodgman against two upright lines; new points are rounded
// to the grid). REQUIRES the clipped part to be in one piece. Empty when nothing is left.
Ring clipped_between(std::span<const GridPoint> ring, Grid low_x, Grid high_x);

}  // namespace lapwright::geom
