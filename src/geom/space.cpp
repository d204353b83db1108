#include <lapwright/geom/space.h>

#include <lapwright/base/trig.h>

namespace lapwright::geom {

double length_of(Vec3 a) {
  return square_root(dot(a, a));
}

Vec3 unit(Vec3 a) {
  const double length = length_of(a);
  return {a.x / length, a.y / length, a.z / length};
}

Frame turned(const Frame& frame, Vec3 a, Vec3 b, Angle angle) {
  if (angle == Angle{}) return frame;  // a + (origin − a) would round
  const Vec3 axis = unit(b - a);
  const double c = cos(angle);
  const double s = sin(angle);
  const auto turn_vector = [&](Vec3 v) {
    return c * v + s * cross(axis, v) + ((1.0 - c) * dot(axis, v)) * axis;
  };
  return {a + turn_vector(frame.origin - a), turn_vector(frame.x_axis), turn_vector(frame.y_axis)};
}

double signed_distance(Vec3 p, const Plane& plane) {
  return dot(p - plane.point, plane.normal);
}

}  // namespace lapwright::geom
