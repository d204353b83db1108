// Vectors and frames in space: doubles, mm.
#pragma once

#include <lapwright/base/units.h>

namespace lapwright::geom {

struct Vec3 {
  double x = 0;
  double y = 0;
  double z = 0;
  friend constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend constexpr Vec3 operator*(double k, Vec3 a) { return {k * a.x, k * a.y, k * a.z}; }
  friend constexpr bool operator==(const Vec3&, const Vec3&) = default;
};

constexpr double dot(Vec3 a, Vec3 b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
constexpr Vec3 cross(Vec3 a, Vec3 b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
double length_of(Vec3 a);
Vec3 unit(Vec3 a);  // REQUIRES length_of(a) > 0

// Where a flat net lies: net point (x, y) in mm is at origin + x·x_axis + y·y_axis. The axes are unit vectors
// square to each other; the outward face of the lead is x_axis × y_axis.
struct Frame {
  Vec3 origin;
  Vec3 x_axis{1, 0, 0};
  Vec3 y_axis{0, 1, 0};
  Vec3 normal() const { return cross(x_axis, y_axis); }
  Vec3 at(double x, double y) const { return origin + x * x_axis + y * y_axis; }
};

// `frame` turned by `angle` about the line through `a` and `b` (right-hand rule from a to b). REQUIRES a ≠ b.
Frame turned(const Frame& frame, Vec3 a, Vec3 b, Angle angle);

// A plane through `point`; `normal` is a unit vector.
struct Plane {
  Vec3 point;
  Vec3 normal;
};
double signed_distance(Vec3 p, const Plane& plane);  // mm, positive on the side that the normal points to

}  // namespace lapwright::geom
