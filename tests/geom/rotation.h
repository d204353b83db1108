// Rotation of a point about a line, written for the tests alone: Rodrigues' formula as a matrix, in long
// double, with the C library's sine and cosine. It shares nothing with the product's frames.
#pragma once

#include <lapwright/geom/net.h>

#include <array>
#include <cmath>

namespace lapwright::geom::sample {

using Point3 = std::array<long double, 3>;

inline Point3 rotated(Point3 p, Point3 a, Point3 b, long double degrees) {
  Point3 k{b[0] - a[0], b[1] - a[1], b[2] - a[2]};
  const long double n = std::sqrt(k[0] * k[0] + k[1] * k[1] + k[2] * k[2]);
  for (long double& v : k) v /= n;
  const long double radians = degrees * 3.14159265358979323846264338327950288L / 180;
  const long double c = std::cos(radians);
  const long double s = std::sin(radians);
  const long double v = 1 - c;
  const std::array<Point3, 3> m{
      {{c + k[0] * k[0] * v, k[0] * k[1] * v - k[2] * s, k[0] * k[2] * v + k[1] * s},
       {k[1] * k[0] * v + k[2] * s, c + k[1] * k[1] * v, k[1] * k[2] * v - k[0] * s},
       {k[2] * k[0] * v - k[1] * s, k[2] * k[1] * v + k[0] * s, c + k[2] * k[2] * v}}};
  const Point3 d{p[0] - a[0], p[1] - a[1], p[2] - a[2]};
  Point3 out = a;
  for (std::size_t i = 0; i < 3; ++i) out[i] += m[i][0] * d[0] + m[i][1] * d[1] + m[i][2] * d[2];
  return out;
}

inline Point3 flat(GridPoint p) {
  return {static_cast<long double>(p.x) / 1000, static_cast<long double>(p.y) / 1000, 0};
}

// Where a point of panel `index` comes to lie when the base panel stays in the plane z = 0: turned about the
// flat place of its own hinge first, then of its parent's, and so on to the base. `left[i]` tells whether
// panel i lies left of its fold as it is drawn from → to.
inline Point3 folded(const Net& net, const std::vector<Panel>& panels, const std::vector<bool>& left,
                     std::size_t index, GridPoint point) {
  Point3 p = flat(point);
  for (std::size_t i = index; panels[i].parent; i = *panels[i].parent) {
    const Fold& fold = net.folds[*panels[i].hinge];
    const long double degrees = static_cast<long double>(fold.angle.in_degrees());
    // Turning about +x by a positive angle lifts +y, which lies left of +x.
    p = rotated(p, flat(fold.from), flat(fold.to), left[i] == fold.up ? degrees : -degrees);
  }
  return p;
}

}  // namespace lapwright::geom::sample
