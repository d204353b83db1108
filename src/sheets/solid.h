// Convex solids in space and what a plane cuts out of them: units and masonry of the sections.
#pragma once

#include "placed.h"

#include <lapwright/draw/drawing.h>

#include <vector>

namespace lapwright::sheets {

// Where a drawing's plane lies: it is looked at from the side to which `normal` points, `up` is up on paper.
struct View {
  geom::Vec3 origin;
  geom::Vec3 normal;
  geom::Vec3 up;  // square to the normal

  geom::Vec3 right() const { return cross(up, normal); }
  draw::Point flat(geom::Vec3 p) const { return {dot(p - origin, right()), dot(p - origin, up)}; }
  double depth(geom::Vec3 p) const { return dot(p - origin, normal); }  // > 0: nearer to the eye
};
// Through a point of a slope, square to `normal`, upright as the world is as far as the plane allows.
View view_of(geom::Vec3 origin, geom::Vec3 normal, Angle pitch);
// The world's upright in a slope's (u, s, n).
geom::Vec3 upright(Angle pitch);

// A base polygon and the same number of points over it, joined one by one; convex.
struct Prism {
  std::vector<geom::Vec3> base;
  std::vector<geom::Vec3> top;
};

// The outline of what the view's plane cuts, counter-clockwise; empty when it misses the solid.
std::vector<draw::Point> cut_through(const Prism& solid, const View& view);

// The part of a convex polygon with a·x + b·y <= c.
std::vector<draw::Point> kept_where(const std::vector<draw::Point>& ring, double a, double b, double c);
std::vector<draw::Point> kept_in(const std::vector<draw::Point>& ring, const draw::Box& box);

// One unit as it lies: its outline on the slope, and how its n runs up the slope.
struct Unit {
  std::vector<draw::Point> outline;  // (u, s), cut to the raked ends of its row
  double tail = 0;                   // of its course
  double fall = 0;  // its head lies lower than its tail by this much a mm: it rests on the course below
  double thick = 0;
  std::int64_t course = 0;  // −1: the under-course

  double under(double s) const { return -fall * (s - tail); }
  Prism solid() const;
};

// The units of a slope's rows that reach into a window of (u, s). The under-course lies flat below course 0.
std::vector<Unit> units_of(const job::Plan& plan, const job::Slope& slope, const draw::Box& window);

}  // namespace lapwright::sheets
