// Arcs by their bulge: all of it from + − × ÷ √.
#pragma once

#include "plane.h"

#include <array>

namespace lapwright::draw {

// For an arc from a to b: its middle, its radius, and the bulge of each half.
inline Point arc_middle(Point a, Point b, double bulge) {
  const Point d = b - a;
  return middle_of(a, b) + Point{d.y, -d.x} * (bulge / 2);
}
inline double arc_radius(Point a, Point b, double bulge) {
  const double k = bulge < 0 ? -bulge : bulge;
  return hypotenuse(b.x - a.x, b.y - a.y) * (1 + k * k) / (4 * k);
}
inline double half_bulge(double bulge) {
  return bulge / (1 + square_root(1 + bulge * bulge));
}

// The inner control points of the cubic that stands for an arc of at most a quarter turn (error < 0.03 % of
// radius).
inline std::array<Point, 2> arc_controls(Point a, Point b, double bulge) {
  const Point d = b - a;
  const double square = bulge * bulge;
  const double c = (1 - square) / (1 + square);  // cos and sin of half the sweep
  const double s = 2 * bulge / (1 + square);
  const double k = (1 + square) / 3;  // (4/3) tan(sweep/4) × radius ÷ chord
  return {a + Point{d.x * c + d.y * s, d.y * c - d.x * s} * k,
          b - Point{d.x * c - d.y * s, d.y * c + d.x * s} * k};
}

}  // namespace lapwright::draw
