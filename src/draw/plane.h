// Small vector helpers of the drawing model.
#pragma once

#include <lapwright/base/trig.h>
#include <lapwright/draw/drawing.h>

namespace lapwright::draw {

inline double dot(Point a, Point b) {
  return a.x * b.x + a.y * b.y;
}
inline Point left_of(Point d) {
  return {-d.y, d.x};
}
inline Point middle_of(Point a, Point b) {
  return {(a.x + b.x) / 2, (a.y + b.y) / 2};
}
inline Point direction(double degrees) {
  return {cos_deg(degrees), sin_deg(degrees)};
}
// Of length 1; to the right if the vector has no length.
inline Point unit(Point v) {
  const double length = hypotenuse(v.x, v.y);
  return length > 0 ? Point{v.x / length, v.y / length} : Point{1, 0};
}

// The same baseline turned so that it reads from below or from the right: (−90, 90]. True if it had to be
// reversed.
struct Reading {
  double rotation = 0;
  bool reversed = false;
};
Reading readable(double rotation);

inline Anchor other_end(Anchor anchor) {
  return anchor == Anchor::middle ? anchor : anchor == Anchor::start ? Anchor::end : Anchor::start;
}

}  // namespace lapwright::draw
