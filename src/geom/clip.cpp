#include <lapwright/geom/polygon.h>

#include <cassert>

namespace lapwright::geom {

namespace {

// Where a–b meets the upright line at x, to the nearest grid point. The ends are put in order first, so that
// an edge shared by two rings is cut at the same point whichever way round each of them runs.
GridPoint crossing(GridPoint a, GridPoint b, Grid x) {
  if (b < a) return crossing(b, a, x);
  const Grid width = b.x - a.x;
  const Grid rise = (b.y - a.y) * (x - a.x);
  const Grid half = rise < 0 ? -(width / 2) : width / 2;
  return {x, a.y + (rise + half) / width};
}

// One pass of Sutherland–Hodgman: keeps x <= limit, or x >= limit.
Ring kept(std::span<const GridPoint> ring, Grid limit, bool below) {
  const auto keeps = [&](GridPoint p) { return below ? p.x <= limit : p.x >= limit; };
  Ring out;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const GridPoint a = ring[i];
    const GridPoint b = ring[i + 1 == ring.size() ? 0 : i + 1];
    if (keeps(a)) out.push_back(a);
    if (keeps(a) != keeps(b) && a.x != limit && b.x != limit) out.push_back(crossing(a, b, limit));
  }
  return out;
}

}  // namespace

Ring without_straight_points(std::span<const GridPoint> ring) {
  Ring out(ring.begin(), ring.end());
  // Taking a point out can straighten its neighbours (a spike along a clip line), so repeat until nothing
  // goes.
  for (bool changed = true; changed && out.size() >= 3;) {
    changed = false;
    for (std::size_t i = 0; i < out.size() && out.size() >= 3;) {
      const std::size_t n = out.size();
      if (turn(out[(i + n - 1) % n], out[i], out[(i + 1) % n]) != 0) {
        ++i;
        continue;
      }
      out.erase(out.begin() + static_cast<std::ptrdiff_t>(i));
      changed = true;
    }
  }
  return out.size() < 3 ? Ring{} : out;
}

Ring clipped_between(std::span<const GridPoint> ring, Grid low_x, Grid high_x) {
  assert(low_x <= high_x);
  return without_straight_points(kept(kept(ring, low_x, false), high_x, true));
}

}  // namespace lapwright::geom
