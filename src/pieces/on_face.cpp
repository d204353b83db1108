#include "on_face.h"

namespace lapwright::pieces {

namespace {

using geom::Vec3;

// A mirrored net's x runs back along the foot line from its far end, so that the weather face stays outward.
struct Axis {
  Vec3 along;
  double start;
};
Axis axis_of(const Place& place, Length start, Length length) {
  if (!is_mirrored(place.face)) return {place.frame.along, start.in_mm()};
  return {-1.0 * place.frame.along, (start + length).in_mm()};
}

}  // namespace

bool is_mirrored(const job::Face& face) {
  // Left-hand nets lie with the face at greater y: along × (towards the face) is outward there, and where the
  // roof lies below a level face.
  const bool level = face.kind == job::FaceKind::top || face.kind == job::FaceKind::front ||
                     face.kind == job::FaceKind::back;
  return level ? !face.roof_below : face.hand == job::Hand::right;
}

geom::Net for_face(const geom::Net& net, const job::Face& face) {
  return is_mirrored(face) ? geom::at_origin(geom::mirrored(net)) : net;
}

geom::GridPoint for_face(geom::GridPoint p, geom::Grid length, const job::Face& face) {
  return is_mirrored(face) ? geom::GridPoint{length - p.x, p.y} : p;
}

geom::Frame on_roof(const Place& place, Length start, Length length, Length leg, Length height) {
  const Axis axis = axis_of(place, start, length);
  const Vec3 foot = place.frame.foot + axis.start * place.frame.along;
  // Up the face, so that the fold still stands against it.
  const Vec3 raised = foot + up_the_face(place, height).in_mm() * place.frame.up;
  const Vec3 origin = raised + leg.in_mm() * place.frame.away;
  return {origin, axis.along, -1.0 * place.frame.away};
}

geom::Frame on_wall(const Place& place, Length start, Length length, Length height) {
  const Axis axis = axis_of(place, start, length);
  const Vec3 foot = place.frame.foot + axis.start * place.frame.along;
  return {foot + height.in_mm() * place.frame.up, axis.along, place.frame.up};
}

Length up_the_face(const Place& place, Length above) {
  return above / place.frame.up.z;
}

}  // namespace lapwright::pieces
