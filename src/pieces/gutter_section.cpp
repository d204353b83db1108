#include "gutter_section.h"

#include "soaker.h"

#include <lapwright/base/trig.h>

#include <algorithm>

namespace lapwright::pieces {

using geom::Vec3;

GutterSection gutter_section(const Place& place) {
  const job::FaceFrame& frame = place.frame;
  const double sine = sin(place.slope.pitch.value);
  const double cosine = cos(place.slope.pitch.value);
  const bool square_on = place.face.kind == job::FaceKind::back;
  GutterSection out;
  Vec3 level = square_on ? Vec3{0, cosine, -sine} : geom::unit(cross(frame.along, Vec3{0, sine, cosine}));
  if (dot(level, frame.away) < 0) level = -1.0 * level;
  out.level_out = level;
  // The usual bearing has an exact angle.
  out.tilt =
      square_on ? place.slope.pitch.value : Angle::degrees(atan2_deg(-level.z, dot(level, frame.away)));
  const Length units = finished_face(place.slope.covering);
  out.sole = max(place.pack.length("back_gutter.sole"), units / sin(out.tilt));
  const double reach = dot(level, frame.out) / dot(frame.away, frame.out);
  out.far = out.sole * reach;
  const Vec3 near = out.far.in_mm() * frame.away - out.sole.in_mm() * level;
  out.level = Length::mm(dot(near, frame.up));
  out.turn =
      place.face.lean == Angle{} ? Angle::degrees(90) : Angle::degrees(acos_deg(-dot(level, frame.up)));
  out.above = max(Length{}, out.sole * sin(out.tilt) - units);
  return out;
}

Spill spill_of(const GutterSection& section, Length least) {
  // Hanging steeper than this it would lie against the units' edges, not on them; flatter than the roof by no
  // less than the last few degrees.
  constexpr double kSteepest = 85;
  constexpr double kOffRoof = 5;
  const double off_roof = std::max(kOffRoof, kSteepest - section.tilt.in_degrees());
  const Length length = max(least, section.above / sin_deg(std::min(off_roof, 90.0)));
  return {length, section.tilt + Angle::degrees(asin_deg(section.above / length))};
}

}  // namespace lapwright::pieces
