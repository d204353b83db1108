#include "pipe_slate.h"

#include "near_pipe.h"
#include "sheet.h"
#include "single_lap.h"
#include "slope_lap.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::Grid;
using geom::GridPoint;
using geom::to_grid;
using geom::Vec3;
using job::Level;
using practice::Why;

// Corners of the hole and facets of the sleeve. Of 48 a pipe of 110 strays from its facets by 0.12, less than
// lead is thick; and a corner falls on each of the pipe's four sides.
constexpr std::int64_t kFacets = 48;
constexpr double kTurn = 360.0 / static_cast<double>(kFacets);

// Corner i of the pipe's cross-section, level, for a radius of 1: 0 at the lower side, on to the right.
struct Corner {
  double x;  // along the eaves
  double y;  // level, towards the ridge
};
Corner corner(std::int64_t i) {
  const double angle = kTurn * static_cast<double>(i % kFacets) - 90;
  return {cos_deg(angle), sin_deg(angle)};
}

struct Sizes {
  Length diameter;
  Angle pitch;
  Length side_lap;
  Length head_lap;
  Length below;
  Length hole;    // up the slope
  Length extra;   // from the pipe's upper side to the tail of the course above
  Length base;    // side of the square
  Length tail;    // of the base, up the slope
  Length middle;  // of the pipe, from the base's tail
  std::size_t course_above = 0;
};

Length side_lap_of(const Place& place, double pitch) {
  const practice::Pack& pack = place.pack;
  const double steep = pack.number("pipe.side_lap");
  const double flat = pack.number("pipe.side_lap_flat");
  const double from = pack.number("pipe.side_lap_pitch");
  const double to = pack.number("pipe.side_lap_pitch_flat");
  return Length::mm(pitch >= from ? steep : steep + (flat - steep) * (from - pitch) / (from - to));
}

Sizes sizes_of(const Place& place) {
  const practice::Pack& pack = place.pack;
  const job::SlopeLayout& layout = place.layout;
  Sizes s;
  s.diameter = *place.junction.diameter;
  s.pitch = place.slope.pitch.value;
  const Angle flattest = place.slope.pitch.least();
  s.side_lap = side_lap_of(place, flattest.in_degrees());
  s.head_lap = Length::mm(pack.number("lap.rise")) / sin(flattest);
  s.below = pack.length("pipe.below");
  s.hole = s.diameter / cos(s.pitch);
  const Length upper = *place.junction.up + s.hole / 2.0;
  const Length lower = upper - s.hole;
  s.tail = lower - s.below;
  // The first course whose tail the base reaches down past is cut round the pipe and lies over the base; its
  // tail may stand above the pipe, and the head lap is counted from there.
  while (s.course_above < layout.courses.size() && layout.courses[s.course_above].tail < s.tail)
    ++s.course_above;
  if (s.course_above < layout.courses.size()) {
    s.extra = max(Length{}, layout.courses[s.course_above].tail - upper);
  }
  s.base = max(pack.length("pipe.base_least"),
               max(s.diameter + s.side_lap * 2.0, s.below + s.hole + s.extra + s.head_lap));
  s.middle = s.below + s.hole / 2.0;
  return s;
}

geom::Net base_net(const Sizes& s) {
  const Grid side = to_grid(s.base);
  geom::Net net;
  net.outline = {{0, 0}, {side, 0}, {side, side}, {0, side}};
  net.roles = {EdgeRole::tail, EdgeRole::side, EdgeRole::head, EdgeRole::side};
  geom::Ring hole;
  for (std::int64_t i = kFacets; i-- > 0;) {
    const Corner c = corner(i);
    hole.push_back(geom::grid_point(s.base / 2.0 + s.diameter / 2.0 * c.x, s.middle + s.hole / 2.0 * c.y));
  }
  net.holes.push_back(std::move(hole));
  return net;
}

Length facet(const Sizes& s) {
  return s.diameter * sin_deg(kTurn / 2);
}

// Height of the base at corner i above its lowest place at the pipe.
Length rise_at(const Sizes& s, std::int64_t i) {
  return s.diameter / 2.0 * ((1 + corner(i).y) * tan(s.pitch));
}

Length sleeve_height(const Place& place, const Sizes& s) {
  return place.pack.length("pipe.sleeve") + s.diameter * tan(s.pitch);
}

geom::Net sleeve_net(const Place& place, const Sizes& s) {
  const Grid top = to_grid(sleeve_height(place, s));
  geom::Net net;
  const auto at = [&](std::int64_t i) {
    return GridPoint{to_grid(facet(s) * static_cast<double>(i)), to_grid(rise_at(s, i))};
  };
  for (std::int64_t i = 0; i < kFacets; ++i) {
    net.outline.push_back(at(i));
    net.roles.push_back(EdgeRole::foot);
  }
  const GridPoint last = at(kFacets);
  net.outline.push_back(last);
  net.roles.push_back(EdgeRole::lap);
  net.outline.push_back({last.x, top});
  net.roles.push_back(EdgeRole::top);
  net.outline.push_back({0, top});
  net.roles.push_back(EdgeRole::lap);
  for (std::int64_t i = 1; i < kFacets; ++i) {
    net.folds.push_back({at(i), {at(i).x, top}, Angle::degrees(kTurn), false});
  }
  return net;
}

// The facet at the pipe's right side: its net lies in this frame.
geom::Frame sleeve_frame(const Sizes& s, Vec3 middle, std::int64_t i) {
  const double sine = sin(s.pitch);
  const double cosine = cos(s.pitch);
  const auto in_space = [&](std::int64_t k) {
    const Corner c = corner(k);
    return middle + Vec3{s.diameter.in_mm() / 2 * c.x, s.hole.in_mm() / 2 * c.y, 0};
  };
  const Vec3 upright{0, sine, cosine};
  const Vec3 edge = in_space(i + 1) - in_space(i);
  const Vec3 level = geom::unit(edge - dot(edge, upright) * upright);
  const double x = facet(s).in_mm() * static_cast<double>(i);
  return {in_space(i) - x * level - rise_at(s, i).in_mm() * upright, level, upright};
}

std::vector<job::Figure> base_figures(const Place& place, const Sizes& s, const Length width) {
  const practice::Pack& pack = place.pack;
  const Angle flattest = place.slope.pitch.least();
  std::vector<job::Figure> out;
  out.push_back(Why("side_lap", "a + (b - a) * max(0, P - pitch) / (P - p)", "mm")
                    .rule("a", pack.rule("pipe.side_lap"))
                    .rule("b", pack.rule("pipe.side_lap_flat"))
                    .rule("P", pack.rule("pipe.side_lap_pitch"))
                    .rule("p", pack.rule("pipe.side_lap_pitch_flat"))
                    .survey("pitch", flattest)
                    .gives(s.side_lap));
  out.push_back(Why("head_lap", "rise / sin(pitch)", "mm")
                    .rule("rise", pack.rule("lap.rise"))
                    .survey("pitch", flattest)
                    .gives(s.head_lap));
  out.push_back(Why("hole_width", "d", "mm").survey("d", s.diameter).gives(s.diameter));
  out.push_back(Why("hole_length", "d / cos(pitch)", "mm")
                    .survey("d", s.diameter)
                    .survey("pitch", s.pitch)
                    .gives(s.hole));
  out.push_back(Why("length", "max(least, d + 2 * side, below + hole + extra + head)", "mm")
                    .rule("least", pack.rule("pipe.base_least"))
                    .survey("d", s.diameter)
                    .term("side", s.side_lap.in_mm(), "mm", "figure side_lap")
                    .rule("below", pack.rule("pipe.below"))
                    .term("hole", s.hole.in_mm(), "mm", "figure hole_length")
                    .term("extra", s.extra.in_mm(), "mm", "pipe to the course above")
                    .term("head", s.head_lap.in_mm(), "mm", "figure head_lap")
                    .gives(s.base));
  out.push_back(Why("middle", "below + hole / 2", "mm")
                    .rule("below", pack.rule("pipe.below"))
                    .term("hole", s.hole.in_mm(), "mm", "figure hole_length")
                    .gives(s.middle));
  if (width > s.base - tolerance::kGrid && place.pack.next_strip_width(s.base - tolerance::kGrid)) {
    out.push_back(strip_figure(width));
  }
  return out;
}

std::vector<job::Figure> sleeve_figures(const Place& place, const Sizes& s) {
  const practice::Pack& pack = place.pack;
  std::vector<job::Figure> out;
  out.push_back(Why("length", "n * d * sin(180 / n)", "mm")
                    .survey("d", s.diameter)
                    .term("n", static_cast<double>(kFacets), "", "facets round the pipe")
                    .gives(facet(s) * static_cast<double>(kFacets)));
  out.push_back(
      Why("height_above", "h", "mm").rule("h", pack.rule("pipe.sleeve")).gives(pack.length("pipe.sleeve")));
  out.push_back(Why("width", "h + d * tan(pitch)", "mm")
                    .rule("h", pack.rule("pipe.sleeve"))
                    .survey("d", s.diameter)
                    .survey("pitch", s.pitch)
                    .gives(sleeve_height(place, s)));
  return out;
}

void say_diameter(const Place& place, const std::string& where, job::JunctionPlan& plan) {
  const practice::Rule& most = place.pack.rule("pipe.diameter_most");
  if (*place.junction.diameter <= Length::mm(most.value) + tolerance::kNoise) return;
  plan.findings.push_back({Level::doubt,
                           "pipe.too_wide",
                           {{"diameter", place.junction.diameter->in_mm(), "mm"}, {"most", most.value, "mm"}},
                           "",
                           place.junction.diameter->in_mm(),
                           most.value,
                           most.source,
                           where});
}

job::WorkStep step_of(const Place& place, std::string_view word, job::Params params) {
  job::WorkStep step;
  step.slope = place.slope.name;
  step.junction = place.junction.name;
  step.step = word;
  step.params = std::move(params);
  return step;
}

}  // namespace

void plan_pipe_slate(const Place& place, job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  const std::string where = place.where();
  const Sizes s = sizes_of(place);
  const Length left = *place.junction.at - s.base / 2.0;
  say_diameter(place, where, plan);
  say_what_is_near(place, {left, s.tail, left + s.base, s.tail + s.base}, plan);

  const std::int64_t code = practice::flashing_code(place.junction, pack);
  const auto strip = pack.next_strip_width(s.base - tolerance::kGrid);
  if (!strip) {
    plan.findings.push_back(
        {Level::doubt,
         "pipe.no_strip",
         {{"needed", s.base.in_mm(), "mm"}, {"widest", pack.strip_widths().back().in_mm(), "mm"}},
         "",
         s.base.in_mm(),
         pack.strip_widths().back().in_mm(),
         pack.strip_widths_source(),
         where});
  }
  // Beside the hole, in a corner of the base.
  job::Piece base =
      lead_piece("pipe-slate", place, base_net(s), {to_grid(s.below) / 2, to_grid(s.below) / 2});
  base.length = s.base;
  base.width = strip.value_or(s.base);
  base.code = code;
  base.count = 1;
  base.figures = base_figures(place, s, base.width);
  weigh(base, pack);
  base.placements.push_back({-2, {{left.in_mm(), s.tail.in_mm(), 0}, {1, 0, 0}, {0, 1, 0}}});

  constexpr std::int64_t kBaseFacet = kFacets / 4;
  const GridPoint on_facet{to_grid(facet(s) * (static_cast<double>(kBaseFacet) + 0.5)),
                           to_grid(sleeve_height(place, s) - pack.length("pipe.sleeve") / 2.0)};
  job::Piece sleeve = lead_piece("pipe-sleeve", place, sleeve_net(place, s), on_facet);
  sleeve.length = geom::to_length(geom::bounds(sleeve.net.outline).width());
  sleeve.width = sleeve_height(place, s);
  sleeve.code = code;
  sleeve.count = 1;
  sleeve.figures = sleeve_figures(place, s);
  weigh(sleeve, pack);
  const Vec3 middle{place.junction.at->in_mm(), place.junction.up->in_mm(), 0};
  sleeve.placements.push_back({-2, sleeve_frame(s, middle, kBaseFacet)});

  const auto before = static_cast<std::int64_t>(s.course_above);
  const auto index = static_cast<std::int64_t>(plan.pieces.size());
  plan.pieces.push_back(std::move(base));
  plan.pieces.push_back(std::move(sleeve));
  plan.work_before_course.push_back(
      {before, step_of(place, "work.pipe_sleeve", {{"diameter", s.diameter.in_mm(), "mm"}}), index + 1});
  const bool covered = s.course_above < place.layout.courses.size();
  plan.work_before_course.push_back({before,
                                     step_of(place, covered ? "work.pipe_slate" : "work.pipe_slate_at_top",
                                             {{"at", place.junction.at->in_mm(), "mm"},
                                              {"tail", s.tail.in_mm(), "mm"},
                                              {"over", static_cast<double>(s.course_above + 1), ""},
                                              {"head_lap", s.head_lap.in_mm(), "mm"},
                                              {"side_lap", s.side_lap.in_mm(), "mm"}}),
                                     index});
}

}  // namespace lapwright::pieces
