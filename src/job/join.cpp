#include <lapwright/job/join.h>

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>

#include <algorithm>

namespace lapwright::job {

namespace {

// East, north, up.
struct Vector {
  double x = 0;
  double y = 0;
  double z = 0;
};

double dot(const Vector& a, const Vector& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

Vector cross(const Vector& a, const Vector& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

double size(const Vector& a) {
  return square_root(dot(a, a));
}

// A slope's plane: along its eaves to the right as seen facing it, up it, and out of it.
struct Plane {
  Vector right;
  Vector up;
  Vector out;
};

Plane plane_of(Angle bearing, Angle pitch) {
  const double east = sin(bearing);
  const double north = cos(bearing);
  const double level = cos(pitch);
  const double rise = sin(pitch);
  return {{-north, east, 0}, {-east * level, -north * level, rise}, {east * rise, north * rise, level}};
}

// From one bearing round to another, clockwise, in (−180, 180].
double turn(Angle from, Angle to) {
  double t = (to - from).in_degrees();
  while (t <= -180) t += 360;
  while (t > 180) t -= 360;
  return t;
}

// Bearings closer than this are taken for one: the slopes lie in one line, and where they would meet is
// anybody's guess.
constexpr double kSameBearing = 1;

std::optional<std::size_t> slope_named(const Survey& survey, const std::string& name) {
  for (std::size_t i = 0; i < survey.slopes.size(); ++i) {
    if (survey.slopes[i].name == name) return i;
  }
  return std::nullopt;
}

JoinLine ridge_line(const Slope& a, const Slope& b, const std::array<Plane, 2>& planes) {
  JoinLine line;
  line.sides[0].run = a.rafter.value;
  line.sides[1].run = b.rafter.value;
  line.length = min(a.width.value, b.width.value);
  const Vector over = cross(planes[0].out, planes[1].out);
  line.fold = Angle::degrees(atan2_deg(size(over), dot(planes[0].out, planes[1].out)));
  return line;
}

}  // namespace

Length u_at(const JoinSide& side, const Slope& slope, Length s) {
  return (side.hand == Hand::left ? Length{} : slope.width.value) + s * side.drift;
}

std::optional<JoinLine> join_line(const Survey& survey, const Join& join) {
  if (join.slopes.size() != 2) return std::nullopt;
  const auto first = slope_named(survey, join.slopes[0]);
  const auto second = slope_named(survey, join.slopes[1]);
  if (!first || !second || *first == *second) return std::nullopt;
  const Slope& a = survey.slopes[*first];
  const Slope& b = survey.slopes[*second];
  const bool valley = join.kind == JoinKind::valley;
  const bool ridge = join.kind == JoinKind::ridge;

  const bool assumed = !a.faces || !b.faces;
  const double usual = ridge ? 180 : valley ? 90 : -90;
  const Angle from_a = assumed ? Angle{} : *a.faces;
  const Angle from_b = assumed ? Angle::degrees(usual) : *b.faces;
  const double turned = turn(from_a, from_b);
  const double apart = turned < 0 ? -turned : turned;
  const bool opposite = apart > 180 - kSameBearing;
  if (apart < kSameBearing || opposite != ridge) return std::nullopt;

  const std::array<Plane, 2> planes = {plane_of(from_a, a.pitch.value), plane_of(from_b, b.pitch.value)};
  JoinLine line;
  if (ridge) {
    line = ridge_line(a, b, planes);
  } else {
    // Both planes hold the line, so it is square to both their normals; of its two ways it is the one that
    // climbs.
    Vector along = cross(planes[0].out, planes[1].out);
    if (along.z < 0) along = {-along.x, -along.y, -along.z};
    const double level = hypotenuse(along.x, along.y);
    line.true_pitch = Angle::degrees(atan2_deg(along.z, level));
    line.fold = Angle::degrees(atan2_deg(size(along), dot(planes[0].out, planes[1].out)));
    const Length top = min(a.rafter.value * sin(a.pitch.value), b.rafter.value * sin(b.pitch.value));
    line.length = top * (size(along) / along.z);
    const bool at_right = valley == (turned > 0);
    line.sides[0].hand = at_right ? Hand::right : Hand::left;
    line.sides[1].hand = at_right ? Hand::left : Hand::right;
    for (std::size_t i = 0; i < 2; ++i) {
      const Plane& plane = planes[i];
      JoinSide& side = line.sides[i];
      const double across = dot(along, plane.right);
      side.drift = across / dot(along, plane.up);
      const double rise = sin((i == 0 ? a : b).pitch.value);
      side.run = top / rise;
      side.to_eaves = Angle::degrees(atan2_deg(square_root(std::max(0.0, level * level - across * across)),
                                               across < 0 ? -across : across));
    }
  }
  line.join = &join;
  line.assumed = assumed;
  line.sides[0].slope = *first;
  line.sides[1].slope = *second;
  return line;
}

std::vector<SlopeJoin> joins_of(const Survey& survey, std::size_t slope) {
  std::vector<SlopeJoin> out;
  for (const Join& join : survey.joins) {
    const auto line = join_line(survey, join);
    if (!line) continue;
    for (std::size_t i = 0; i < 2; ++i) {
      if (line->sides[i].slope == slope) out.push_back({*line, i});
    }
  }
  return out;
}

std::optional<SlopeJoin> stands_on_join(const Survey& survey, std::size_t slope, const Junction& stack) {
  if (!stack.at || !stack.front || !stack.width || !stack.depth) return std::nullopt;
  const Slope& on = survey.slopes[slope];
  const Length left = *stack.at - *stack.width / 2.0;
  const Length right = *stack.at + *stack.width / 2.0;
  const Length front = *stack.front;
  const Length back = front + *stack.depth / cos(on.pitch.value);
  for (SlopeJoin& there : joins_of(survey, slope)) {
    if (there.line.join->kind == JoinKind::ridge) continue;
    const JoinSide& side = there.line.sides[there.side];
    // The part of the line that is as far up the slope as the stack.
    const Length from = max(front, Length{});
    const Length to = min(back, side.run);
    if (from > to + tolerance::kGrid) continue;
    const Length u1 = u_at(side, on, from);
    const Length u2 = u_at(side, on, to);
    if (max(u1, u2) < left - tolerance::kGrid || min(u1, u2) > right + tolerance::kGrid) continue;
    return there;
  }
  return std::nullopt;
}

}  // namespace lapwright::job
