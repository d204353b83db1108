#include <lapwright/job/face.h>

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>

#include <utility>

namespace lapwright::job {

namespace {

using geom::Vec3;

// A foot line that leaves the fall line, or level, by less than this on plan is taken for straight: what a
// tape and an eye can tell on a roof.
constexpr double kStraight = 0.5;  // degrees

// A slope's own directions in a level frame (along the eaves, level towards the ridge, upright), and back.
Vec3 in_slope(Vec3 level, double sine, double cosine) {
  return {level.x, level.y * cosine + level.z * sine, level.z * cosine - level.y * sine};
}

Face stretch(const Slope& slope, FootPoint a, FootPoint b) {
  const double du = (b.u - a.u).in_mm();
  const double dy = (b.s - a.s).in_mm() * cos(slope.pitch.value);
  // The roof lies on the right of the line as it is walked.
  const double off_fall = atan2_deg(du, dy);  // 0 straight up the slope, 90 to the right, ±180 down
  Face face;
  const auto near = [&](double angle) {
    return off_fall > angle - kStraight && off_fall < angle + kStraight;
  };
  if (near(90) || near(-90)) {
    face.roof_below = du > 0;
    face.kind = face.roof_below ? FaceKind::top : FaceKind::back;
    face.from = du > 0 ? a : b;
    face.to = du > 0 ? b : a;
    return face;
  }
  face.kind = near(0) || near(180) || near(-180) ? FaceKind::side : FaceKind::skew;
  const bool climbs = dy > 0;
  face.hand = climbs ? Hand::left : Hand::right;
  face.from = climbs ? a : b;
  face.to = climbs ? b : a;
  return face;
}

std::vector<Face> stack_faces(const Slope& slope, const Junction& junction) {
  const Length left = *junction.at - *junction.width / 2.0;
  const Length right = *junction.at + *junction.width / 2.0;
  const Length front = *junction.front;
  const bool through_ridge = junction.across.has_value();
  const Length back = through_ridge ? slope.rafter.value : front + *junction.depth / cos(slope.pitch.value);
  std::vector<Face> out;
  out.push_back({FaceKind::front, "front", Hand::left, true, {left, front}, {right, front}, {}});
  out.push_back({FaceKind::side, "left side", Hand::right, true, {left, front}, {left, back}, {}});
  out.push_back({FaceKind::side, "right side", Hand::left, true, {right, front}, {right, back}, {}});
  if (!through_ridge) {
    out.push_back({FaceKind::back, "back", Hand::left, false, {left, back}, {right, back}, {}});
  }
  return out;
}

}  // namespace

std::vector<Face> faces_of(const Slope& slope, const Junction& junction) {
  std::vector<Face> out;
  switch (junction.kind) {
    case JunctionKind::side: {
      const Length u = junction.hand == Hand::left ? Length{} : slope.width.value;
      const Length to = junction.to.value_or(slope.rafter.value);
      out.push_back({FaceKind::side, "", junction.hand, true, {u, junction.from}, {u, to}, {}});
      break;
    }
    case JunctionKind::top: {
      const Length s = slope.rafter.value;
      const Length to = junction.to.value_or(slope.width.value);
      out.push_back({FaceKind::top, "", Hand::left, true, {junction.from, s}, {to, s}, {}});
      break;
    }
    case JunctionKind::stack:
      return stack_faces(slope, junction);
    case JunctionKind::wall:
      for (std::size_t i = 0; i + 1 < junction.line.size(); ++i) {
        const auto& a = junction.line[i];
        const auto& b = junction.line[i + 1];
        Face face = stretch(slope, {a.u, a.s}, {b.u, b.s});
        face.lean = junction.lean.value_or(Angle{});
        if (junction.line.size() > 2) face.name = "stretch " + std::to_string(i + 1);
        out.push_back(std::move(face));
      }
      break;
    case JunctionKind::pipe:
      out.push_back({FaceKind::round,
                     "",
                     Hand::left,
                     true,
                     {*junction.at, *junction.up},
                     {*junction.at, *junction.up},
                     {}});
      break;
  }
  return out;
}

std::vector<Junction> parts_from_across(const Survey& survey, const Slope& slope) {
  std::vector<Junction> out;
  for (const Slope& other : survey.slopes) {
    for (const Junction& junction : other.junctions) {
      if (junction.kind != JunctionKind::stack || junction.across != slope.name) continue;
      const Length on_other = (other.rafter.value - *junction.front) * cos(other.pitch.value);
      const Length here = (*junction.depth - on_other) / cos(slope.pitch.value);
      if (here <= tolerance::kGrid) continue;
      Junction part = junction;
      part.at = slope.width.value - *junction.at;
      part.front = slope.rafter.value - here;
      part.across = other.name;
      out.push_back(std::move(part));
    }
  }
  return out;
}

FaceFrame frame_of(const Face& face, Angle pitch) {
  const double sine = sin(pitch);
  const double cosine = cos(pitch);
  FaceFrame out;
  out.foot = {face.from.u.in_mm(), face.from.s.in_mm(), 0};
  const double du = (face.to.u - face.from.u).in_mm();
  const double ds = (face.to.s - face.from.s).in_mm();
  const double length = hypotenuse(du, ds);
  out.length = Length::mm(length);
  const bool level =
      face.kind == FaceKind::top || face.kind == FaceKind::front || face.kind == FaceKind::back;
  // The two usual bearings are exact, whatever the survey's last digits.
  if (level) {
    out.along = {1, 0, 0};
    out.away = {0, face.roof_below ? -1.0 : 1.0, 0};
  } else if (face.kind == FaceKind::side) {
    out.along = {0, 1, 0};
    out.away = {face.hand == Hand::left ? 1.0 : -1.0, 0, 0};
  } else {
    out.along = {du / length, ds / length, 0};
    const double side = face.hand == Hand::left ? 1 : -1;
    out.away = {side * out.along.y, -side * out.along.x, 0};
  }
  // On plan: the level direction square to the foot, towards the roof.
  const Vec3 on_plan{out.away.x * cosine, out.away.y, 0};
  const Vec3 towards_roof = level || face.kind == FaceKind::side ? out.away : geom::unit(on_plan);
  out.runs_at = towards_roof.y;
  const Vec3 leaning = cos(face.lean) * Vec3{0, 0, 1} + (-sin(face.lean)) * towards_roof;
  const Vec3 rises = in_slope(leaning, sine, cosine);
  const Vec3 square = rises - dot(rises, out.along) * out.along;
  out.up = geom::unit(square);
  Vec3 normal = cross(out.along, out.up);
  if (dot(normal, out.away) < 0) normal = -1.0 * normal;
  out.out = normal;
  const auto height = [&](Vec3 v) { return v.y * sine + v.z * cosine; };
  const bool plumb = face.lean == Angle{};
  const double along_height = height(out.along);
  out.steepness = plumb ? 1.0 : hypotenuse(along_height, height(out.up));
  // The usual bearings and plumb walls have exact angles.
  if (level) {
    out.rise = Angle{};
  } else if (face.kind == FaceKind::side) {
    out.rise = pitch;
  } else {
    out.rise = Angle::degrees(asin_deg(along_height));
  }
  out.rise_in_face = plumb ? out.rise : Angle::degrees(asin_deg(along_height / out.steepness));
  if (plumb && face.kind == FaceKind::side) {
    out.fold = Angle::degrees(90);
  } else if (plumb && level) {
    out.fold = face.roof_below ? Angle::degrees(90) - pitch : Angle::degrees(90) + pitch;
  } else {
    out.fold = Angle::degrees(acos_deg(out.out.z));
  }
  return out;
}

}  // namespace lapwright::job
