#include "solid.h"

#include <lapwright/base/trig.h>

#include <algorithm>

namespace lapwright::sheets {

using draw::Point;
using geom::Vec3;

Vec3 upright(Angle pitch) {
  return {0, sin(pitch), cos(pitch)};
}

View view_of(Vec3 origin, Vec3 normal, Angle pitch) {
  const Vec3 world = upright(pitch);
  const Vec3 in_plane = world - dot(world, normal) * normal;
  return {origin, normal, geom::unit(in_plane)};
}

std::vector<Point> cut_through(const Prism& solid, const View& view) {
  std::vector<Point> points;
  const auto edge = [&](Vec3 a, Vec3 b) {
    const double da = view.depth(a);
    const double db = view.depth(b);
    if ((da < 0) == (db < 0)) return;
    points.push_back(view.flat(a + (da / (da - db)) * (b - a)));
  };
  const std::size_t n = solid.base.size();
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t next = (i + 1) % n;
    edge(solid.base[i], solid.base[next]);
    edge(solid.top[i], solid.top[next]);
    edge(solid.base[i], solid.top[i]);
  }
  if (points.size() < 3) return {};
  Point middle{};
  for (const Point& p : points) middle = middle + p;
  middle = middle * (1.0 / static_cast<double>(points.size()));
  std::sort(points.begin(), points.end(), [&](Point a, Point b) {
    const double one = atan2_deg(a.y - middle.y, a.x - middle.x);
    const double other = atan2_deg(b.y - middle.y, b.x - middle.x);
    if (one != other) return one < other;
    return a.x != b.x ? a.x < b.x : a.y < b.y;
  });
  return points;
}

std::vector<Point> kept_where(const std::vector<Point>& ring, double a, double b, double c) {
  std::vector<Point> out;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point p = ring[i];
    const Point q = ring[(i + 1) % ring.size()];
    const double dp = a * p.x + b * p.y - c;
    const double dq = a * q.x + b * q.y - c;
    if (dp <= 0) out.push_back(p);
    if ((dp < 0 && dq > 0) || (dp > 0 && dq < 0)) out.push_back(p + (q - p) * (dp / (dp - dq)));
  }
  if (out.size() < 3) out.clear();
  return out;
}

std::vector<Point> kept_in(const std::vector<Point>& ring, const draw::Box& box) {
  std::vector<Point> out = kept_where(ring, -1, 0, -box.left);
  out = kept_where(out, 1, 0, box.right);
  out = kept_where(out, 0, -1, -box.bottom);
  return kept_where(out, 0, 1, box.top);
}

Prism Unit::solid() const {
  Prism out;
  for (const Point& p : outline) {
    out.base.push_back({p.x, p.y, under(p.y)});
    out.top.push_back({p.x, p.y, under(p.y) + thick});
  }
  return out;
}

namespace {

// Cut to a raked end: the line through (at_tail, tail) and (at_head, head), keeping `side` of it.
std::vector<Point> raked(const std::vector<Point>& ring, const job::Row& row, const job::Row::Rake& rake,
                         double side) {
  const double length = row.length.in_mm();
  if (length <= 0) return ring;
  const double lean = (rake.at_head - rake.at_tail).in_mm() / length;
  // u − lean·s <= at_tail − lean·tail keeps the left of the line.
  const double at = rake.at_tail.in_mm() - lean * row.tail.in_mm();
  return kept_where(ring, side, -side * lean, side * at);
}

}  // namespace

std::vector<Unit> units_of(const job::Plan& plan, const job::Slope& slope, const draw::Box& window) {
  std::vector<Unit> out;
  const job::SetOut* set_out = set_out_of(plan, slope.name);
  if (set_out == nullptr) return out;
  const double thick = finished_face(slope);
  for (const job::Row& row : plan.rows) {
    if (row.slope != slope.name) continue;
    const double tail = row.tail.in_mm();
    const double head = tail + row.length.in_mm();
    if (head < window.bottom || tail > window.top) continue;
    double gauge = set_out->gauge.in_mm();
    const auto k = static_cast<std::size_t>(std::max<std::int64_t>(0, row.course));
    if (k + 1 < set_out->tails.size()) gauge = (set_out->tails[k + 1] - set_out->tails[k]).in_mm();
    const double course_tail = k < set_out->tails.size() ? set_out->tails[k].in_mm() : tail;
    if (gauge <= 0) continue;
    double left = row.from.in_mm();
    for (const job::UnitRun& run : row.widths) {
      for (std::int64_t i = 0; i < run.count; ++i) {
        const double right = left + run.width.in_mm();
        if (right >= window.left && left <= window.right) {
          std::vector<Point> outline{{left, tail}, {right, tail}, {right, head}, {left, head}};
          if (row.left_rake) outline = raked(outline, row, *row.left_rake, -1);
          if (row.right_rake) outline = raked(outline, row, *row.right_rake, 1);
          if (!outline.empty()) {
            Unit unit{std::move(outline), course_tail, thick / gauge, thick, row.course};
            // The under-course lies below course 0, as flat as that.
            if (row.course < 0) unit.tail -= gauge;
            out.push_back(std::move(unit));
          }
        }
        left = right + row.gap.in_mm();
      }
    }
  }
  return out;
}

}  // namespace lapwright::sheets
