#include <lapwright/job/join.h>

#include <lapwright/base/trig.h>

#include <algorithm>
#include <cmath>

namespace lapwright::job {

namespace {

// Nearer than this two bearings are one: what a compass tells on a roof.
constexpr double kSameBearing = 1;  // degrees

// On plan: x to the east, y to the north.
struct OnPlan {
  double x = 0;
  double y = 0;
};

double dot(OnPlan a, OnPlan b) {
  return a.x * b.x + a.y * b.y;
}

OnPlan fall_of(double bearing) {
  return {sin_deg(bearing), cos_deg(bearing)};
}

// Along the eaves, left to right as seen facing the roof.
OnPlan right_of(double bearing) {
  return {-cos_deg(bearing), sin_deg(bearing)};
}

std::optional<std::size_t> index_of(const Survey& survey, std::string_view name) {
  for (std::size_t i = 0; i < survey.slopes.size(); ++i) {
    if (survey.slopes[i].name == name) return i;
  }
  return std::nullopt;
}

// How far apart two bearings are, 0 to 180.
double between(double a, double b) {
  return acos_deg(std::clamp(dot(fall_of(a), fall_of(b)), -1.0, 1.0));
}

JoinLine ridge_of(const std::array<std::size_t, 2>& slopes, const Survey& survey) {
  JoinLine out;
  for (std::size_t k = 0; k < 2; ++k) {
    out.sides[k].slope = slopes[k];
    out.sides[k].run = survey.slopes[slopes[k]].rafter.value;
  }
  out.fold = survey.slopes[slopes[0]].pitch.value + survey.slopes[slopes[1]].pitch.value;
  out.length = min(survey.slopes[slopes[0]].width.value, survey.slopes[slopes[1]].width.value);
  return out;
}

}  // namespace

std::optional<JoinLine> join_line(const Survey& survey, const Join& join) {
  if (join.slopes.size() != 2) return std::nullopt;
  const auto one = index_of(survey, join.slopes[0]);
  const auto other = index_of(survey, join.slopes[1]);
  if (!one || !other || *one == *other) return std::nullopt;
  const std::array<std::size_t, 2> slopes{*one, *other};
  std::array<double, 2> bearing{180, join.kind == JoinKind::valley ? 270.0
                                     : join.kind == JoinKind::hip  ? 90.0
                                                                   : 0.0};
  const bool given = survey.slopes[*one].faces && survey.slopes[*other].faces;
  if (given) bearing = {survey.slopes[*one].faces->in_degrees(), survey.slopes[*other].faces->in_degrees()};
  const double apart = between(bearing[0], bearing[1]);
  const bool opposite = apart > 180 - kSameBearing;
  if (apart < kSameBearing || opposite != (join.kind == JoinKind::ridge)) return std::nullopt;
  JoinLine out;
  if (opposite) {
    out = ridge_of(slopes, survey);
  } else {
    std::array<double, 2> tangent{};
    double top = 1e300;  // height of the line's upper end, mm
    for (std::size_t k = 0; k < 2; ++k) {
      const Slope& slope = survey.slopes[slopes[k]];
      tangent[k] = tan(slope.pitch.value);
      top = std::min(top, slope.rafter.value.in_mm() * sin(slope.pitch.value));
    }
    // Where both planes are equally high: square to the difference of their gradients, uphill.
    const OnPlan fall[2] = {fall_of(bearing[0]), fall_of(bearing[1])};
    const OnPlan gradient{tangent[0] * fall[0].x - tangent[1] * fall[1].x,
                          tangent[0] * fall[0].y - tangent[1] * fall[1].y};
    const double size = hypotenuse(gradient.x, gradient.y);
    OnPlan along{-gradient.y / size, gradient.x / size};
    if (dot(along, fall[0]) > 0) along = {-along.x, -along.y};
    for (std::size_t k = 0; k < 2; ++k) {
      const Slope& slope = survey.slopes[slopes[k]];
      JoinSide& side = out.sides[k];
      const OnPlan right = right_of(bearing[k]);
      const double up = -dot(along, fall[k]);
      if (up <= 0) return std::nullopt;
      const double turned = dot(fall[1 - k], right);
      side.slope = slopes[k];
      side.hand = (join.kind == JoinKind::valley) == (turned < 0) ? Hand::right : Hand::left;
      side.drift = dot(along, right) / up * cos(slope.pitch.value);
      side.to_eaves = Angle::degrees(atan2_deg(up, std::abs(dot(along, right))));
      side.run = Length::mm(top / sin(slope.pitch.value));
    }
    const double rise = -dot(along, fall[0]) * tangent[0];
    out.true_pitch = Angle::degrees(atan_deg(rise));
    out.length = Length::mm(top / sin(out.true_pitch));
    const Angle a = survey.slopes[slopes[0]].pitch.value;
    const Angle b = survey.slopes[slopes[1]].pitch.value;
    out.fold = Angle::degrees(acos_deg(cos(a) * cos(b) + sin(a) * sin(b) * dot(fall[0], fall[1])));
  }
  out.join = &join;
  out.assumed = !given;
  return out;
}

std::vector<SlopeJoin> joins_of(const Survey& survey, std::size_t slope) {
  std::vector<SlopeJoin> out;
  for (const Join& join : survey.joins) {
    const std::optional<JoinLine> line = join_line(survey, join);
    if (!line) continue;
    for (std::size_t side = 0; side < 2; ++side) {
      if (line->sides[side].slope == slope) out.push_back({*line, side});
    }
  }
  return out;
}

}  // namespace lapwright::job
