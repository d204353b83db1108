// Breaking arcs into chords, and filling areas with the lines of a hatch.
#include <lapwright/draw/expand.h>

#include "contour.h"

#include <algorithm>
#include <cmath>

namespace lapwright::draw {
namespace {

using Segments = std::vector<std::pair<Point, Point>>;
constexpr std::size_t kMostSegments = 20000;

// Adds the points after `a` up to and with `b`. The depth bound only guards against nonsense radii.
void add_arc(Point a, Point b, double bulge, double tolerance, int depth, std::vector<Point>& out) {
  const double chord = hypotenuse(b.x - a.x, b.y - a.y);
  if (depth <= 0 || std::fabs(bulge) * chord / 2 <= tolerance) {  // the sagitta
    out.push_back(b);
    return;
  }
  const Point m = arc_middle(a, b, bulge);
  add_arc(a, m, half_bulge(bulge), tolerance, depth - 1, out);
  add_arc(m, b, half_bulge(bulge), tolerance, depth - 1, out);
}

struct Edge {
  double from = 0;  // heights across the lines of the family
  double to = 0;
  double along_from = 0;
  double along_to = 0;
};

// False when it comes to more than kMostSegments.
bool hatch_family(const std::vector<std::vector<Point>>& rings, const HatchFamily& family, double stretch,
                  Segments& out) {
  const Point d = direction(family.angle);
  const Point n = left_of(d);
  const Point origin{family.x, family.y};
  const double spacing = family.spacing * stretch;
  std::vector<Edge> edges;
  double lowest = 0;
  double highest = 0;
  for (const std::vector<Point>& ring : rings) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i] - origin;
      const Point b = ring[(i + 1) % ring.size()] - origin;
      const Edge edge{dot(a, n), dot(b, n), dot(a, d), dot(b, d)};
      lowest = edges.empty() ? edge.from : std::min(lowest, edge.from);
      highest = edges.empty() ? edge.from : std::max(highest, edge.from);
      edges.push_back(edge);
    }
  }
  if (edges.empty()) return true;
  if ((highest - lowest) / spacing > static_cast<double>(kMostSegments)) return false;
  const auto first = static_cast<std::int64_t>(std::ceil(lowest / spacing));
  const auto last = static_cast<std::int64_t>(std::floor(highest / spacing));
  std::vector<double> crossings;
  for (std::int64_t row = first; row <= last; ++row) {
    const double height = static_cast<double>(row) * spacing;
    crossings.clear();
    for (const Edge& e : edges) {
      // Half open, so that a corner on the line counts once.
      if ((e.from <= height) == (e.to <= height)) continue;
      crossings.push_back(e.along_from + (e.along_to - e.along_from) * (height - e.from) / (e.to - e.from));
    }
    std::sort(crossings.begin(), crossings.end());
    const auto point = [&](double along) { return origin + d * along + n * height; };
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
      const double from = crossings[i];
      const double to = crossings[i + 1];
      if (family.on <= 0) {
        if (to > from) out.emplace_back(point(from), point(to));
        if (out.size() > kMostSegments) return false;
        continue;
      }
      const double period = (family.on + family.off) * stretch;
      const double phase = static_cast<double>(row) * family.shift * stretch;
      if ((to - from) / period > static_cast<double>(kMostSegments)) return false;
      for (double dash = phase + period * std::floor((from - phase) / period); dash < to; dash += period) {
        const double a = std::max(dash, from);
        const double b = std::min(dash + family.on * stretch, to);
        if (b > a) out.emplace_back(point(a), point(b));
        if (out.size() > kMostSegments) return false;
      }
    }
  }
  return true;
}

}  // namespace

std::vector<Point> flattened(const Contour& contour, double tolerance) {
  std::vector<Point> out;
  const std::size_t n = contour.vertices.size();
  if (n == 0) return out;
  out.push_back(contour.vertices[0].at);
  const std::size_t legs = contour.closed ? n : n - 1;
  for (std::size_t i = 0; i < legs; ++i) {
    const Vertex& from = contour.vertices[i];
    const Vertex& to = contour.vertices[(i + 1) % n];
    add_arc(from.at, to.at, from.bulge, tolerance, 12, out);
  }
  if (contour.closed && n > 1) out.pop_back();  // back at the first
  return out;
}

std::vector<std::pair<Point, Point>> hatch_lines(const std::vector<Contour>& contours, HatchKind kind) {
  std::vector<std::vector<Point>> rings;
  rings.reserve(contours.size());
  for (const Contour& contour : contours) rings.push_back(flattened(contour));
  for (double stretch = 1;; stretch *= 2) {
    Segments out;
    bool fits = true;
    for (const HatchFamily& family : look_of(kind).families) {
      fits = fits && hatch_family(rings, family, stretch, out);
    }
    if (fits) return out;
  }
}

}  // namespace lapwright::draw
