#include <lapwright/geom/polygon.h>

#include "segments.h"

#include <algorithm>
#include <cassert>
#include <numeric>

namespace lapwright::geom {

namespace {

GridPoint after(std::span<const GridPoint> ring, std::size_t i) {
  return ring[i + 1 == ring.size() ? 0 : i + 1];
}

}  // namespace

std::int64_t twice_area(std::span<const GridPoint> ring) {
  // Partial sums of a long winding ring may pass 2^63 although the whole fits: unsigned sums wrap without
  // harm.
  std::uint64_t sum = 0;
  for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
    sum += static_cast<std::uint64_t>(cross_of(ring[0], ring[i], ring[i + 1]));
  }
  return static_cast<std::int64_t>(sum);
}

Area area(std::span<const GridPoint> ring) {
  const auto twice = static_cast<double>(twice_area(ring));
  return Area::mm2((twice < 0 ? -twice : twice) / 2e6);
}

Box bounds(std::span<const GridPoint> ring) {
  assert(!ring.empty());
  Box box{ring[0], ring[0]};
  for (const GridPoint p : ring) {
    box.low = {std::min(box.low.x, p.x), std::min(box.low.y, p.y)};
    box.high = {std::max(box.high.x, p.x), std::max(box.high.y, p.y)};
  }
  return box;
}

int turn(GridPoint a, GridPoint b, GridPoint c) {
  const std::int64_t cross = cross_of(a, b, c);
  return cross > 0 ? 1 : cross < 0 ? -1 : 0;
}

bool is_simple(std::span<const GridPoint> ring) {
  const std::size_t n = ring.size();
  if (n < 3 || twice_area(ring) == 0) return false;
  // Edges with a neighbour between them may not touch. That finds repeated points and edges that run back
  // over the one before as well: then the edges on both sides of the offender touch, or the ring is a
  // triangle without area. Edges by their left end: an edge is compared only with those that begin before it
  // ends.
  std::vector<std::size_t> edges(n);
  std::iota(edges.begin(), edges.end(), std::size_t{0});
  const auto low_x = [&](std::size_t i) { return std::min(ring[i].x, after(ring, i).x); };
  std::sort(edges.begin(), edges.end(),
            [&](std::size_t i, std::size_t j) { return low_x(i) != low_x(j) ? low_x(i) < low_x(j) : i < j; });
  for (std::size_t k = 0; k < n; ++k) {
    const std::size_t i = edges[k];
    const Grid high_x = std::max(ring[i].x, after(ring, i).x);
    for (std::size_t m = k + 1; m < n && low_x(edges[m]) <= high_x; ++m) {
      const std::size_t j = edges[m];
      const bool successive = (i + 1) % n == j || (j + 1) % n == i;
      if (!successive && segments_touch(ring[i], after(ring, i), ring[j], after(ring, j))) return false;
    }
  }
  return true;
}

Side side_of(GridPoint p, std::span<const GridPoint> ring) {
  bool inside = false;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const GridPoint a = ring[i];
    const GridPoint b = after(ring, i);
    if (on_segment(p, a, b)) return Side::on_edge;
    // A ray to the right crosses the edges that straddle its height, upper ends left out so that a corner
    // counts once.
    if ((a.y > p.y) == (b.y > p.y)) continue;
    if (turn(a, b, p) == (b.y > a.y ? 1 : -1)) inside = !inside;
  }
  return inside ? Side::inside : Side::outside;
}

Ring mirrored(std::span<const GridPoint> ring) {
  Ring out;
  out.reserve(ring.size());
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const GridPoint p = ring[i == 0 ? 0 : ring.size() - i];
    out.push_back({-p.x, p.y});
  }
  return out;
}

}  // namespace lapwright::geom
