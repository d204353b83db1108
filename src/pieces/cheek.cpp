#include "cheek.h"

#include "on_face.h"
#include "roof_cover.h"
#include "sheet.h"
#include "single_lap.h"
#include "slope_lap.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::Grid;
using geom::GridPoint;
using geom::to_grid;
using job::ClearAt;
using practice::Why;

// Before the first place measured and after the last the height stays what it was there.
Length clear_at(const std::vector<ClearAt>& clear, Length s) {
  if (s <= clear.front().at) return clear.front().height;
  for (std::size_t i = 1; i < clear.size(); ++i) {
    if (s > clear[i].at) continue;
    const ClearAt& a = clear[i - 1];
    const double t = (s - a.at) / (clear[i].at - a.at);
    return a.height + (clear[i].height - a.height) * t;
  }
  return clear.back().height;
}

// The first place in [from, to], going up, where the height has fallen to `limit`.
std::optional<Length> falls_to(const std::vector<ClearAt>& clear, Length limit, Length from, Length to) {
  if (clear_at(clear, from) <= limit) return from;
  for (std::size_t i = 1; i < clear.size(); ++i) {
    const ClearAt& a = clear[i - 1];
    const ClearAt& b = clear[i];
    if (b.at <= from || b.height > limit || a.height <= limit) continue;
    const Length at = a.at + (b.at - a.at) * ((a.height - limit) / (a.height - b.height));
    if (at >= to) return std::nullopt;
    if (at > from) return at;
  }
  return std::nullopt;
}

job::FootPoint point_at(const job::Face& face, Length s) {
  const double t = (s - face.from.s) / (face.to.s - face.from.s);
  return {face.from.u + (face.to.u - face.from.u) * t, s};
}

// The strip's profile: how far up the face it turns, along the foot line of the boxed part.
class Profile {
 public:
  Profile(const Place& place, Length upstand) : place_(place), upstand_(upstand) {}

  // Under what hangs over it: a soffit that comes down towards the roof, going up, is nowhere nearer to the
  // roof, square to it, than its upright clear height times cos pitch.
  Length at(Length x) const { return min(upstand_, room(x)); }

  // Where the profile bends between two places, rising.
  std::vector<Length> bends(Length from, Length to) const {
    std::vector<Length> ends{from};
    for (const ClearAt& c : place_.junction.clear) {
      const Length x = (c.at - place_.face.from.s) / place_.frame.along.y;
      if (x > from && x < to) ends.push_back(x);
    }
    ends.push_back(to);
    std::vector<Length> out;
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
      if (i > 0) out.push_back(ends[i]);
      const Length a = room(ends[i]) - upstand_;
      const Length b = room(ends[i + 1]) - upstand_;
      const bool crosses = (a > Length{} && b < Length{}) || (a < Length{} && b > Length{});
      if (crosses) out.push_back(ends[i] + (ends[i + 1] - ends[i]) * (a / (a - b)));
    }
    return out;
  }

 private:
  Length room(Length x) const {
    const Length s = place_.face.from.s + x * place_.frame.along.y;
    return up_the_face(place_, clear_at(place_.junction.clear, s) * cos(place_.slope.pitch.value));
  }
  const Place& place_;
  Length upstand_;
};

geom::Net strip_net(const Place& place, const Profile& profile, Length start, Length length, Length leg) {
  const Grid low = to_grid(leg);
  const Grid far = to_grid(length);
  geom::Net net;
  const auto edge = [&](GridPoint from, EdgeRole role) {
    if (!net.outline.empty() && net.outline.back() == from) {
      net.roles.back() = role;
      return;
    }
    net.outline.push_back(from);
    net.roles.push_back(role);
  };
  edge({0, 0}, EdgeRole::side);
  edge({far, 0}, EdgeRole::head);
  edge({far, low}, EdgeRole::head);
  edge({far, low + to_grid(profile.at(start + length))}, EdgeRole::top);
  std::vector<Length> bends = profile.bends(start, start + length);
  std::reverse(bends.begin(), bends.end());
  for (const Length x : bends) edge({to_grid(x - start), low + to_grid(profile.at(x))}, EdgeRole::top);
  edge({0, low + to_grid(profile.at(start))}, EdgeRole::tail);
  edge({0, low}, EdgeRole::tail);
  net.folds.push_back({{0, low}, {far, low}, place.frame.fold, true});
  return net;
}

job::WorkStep step_of(const Place& place, std::string_view word, job::Params params) {
  job::WorkStep step;
  step.slope = place.slope.name;
  step.junction = place.junction.name;
  step.step = word;
  step.params = std::move(params);
  return step;
}

// The first course that lies beside the boxed part.
std::int64_t first_course(const Place& place) {
  const auto& courses = place.layout.courses;
  std::size_t k = 0;
  while (k < courses.size() && courses[k].tail + courses[k].margin <= place.face.from.s) ++k;
  return static_cast<std::int64_t>(k);
}

struct Strip {
  Length leg;
  Length upstand;
  Length lap;
  Length width;
  EqualPieces pieces;
  std::int64_t code = 0;
};

std::vector<job::Figure> figures_of(const Place& place, const Strip& s, const practice::Rule& longest) {
  const practice::Pack& pack = place.pack;
  const Length run = place.frame.length;
  const auto n = static_cast<double>(s.pieces.count);
  std::vector<job::Figure> out;
  Why pieces("pieces", n > 1 ? "ceil((run - lap) / (most - lap))" : "ceil(run / most)", "");
  pieces.term("run", run.in_mm(), "mm", "the boxed part").rule("most", longest);
  if (n > 1) pieces.term("lap", s.lap.in_mm(), "mm", "figure lap");
  out.push_back(pieces.gives(n));
  if (s.lap > pack.length("flashing.lap_along_wall")) {
    out.push_back(slope_lap_figure(place, flattest_rise(place)));
  } else {
    out.push_back(Why("lap", "lap", "mm").rule("lap", pack.rule("flashing.lap_along_wall")).gives(s.lap));
  }
  out.push_back(Why("length", "(run + (n - 1) * lap) / n", "mm")
                    .term("run", run.in_mm(), "mm", "the boxed part")
                    .term("n", n, "", "figure pieces")
                    .term("lap", s.lap.in_mm(), "mm", "figure lap")
                    .decided_by(longest)
                    .gives(s.pieces.length));
  out.push_back(Why("leg", "leg", "mm").rule("leg", pack.rule("cheek.leg")).gives(s.leg));
  const bool square = place.frame.up.z == 1.0;
  Why upstand("upstand", square ? "u" : "u / k", "mm");
  upstand.rule("u", pack.rule("cheek.upstand"));
  if (!square) upstand.term("k", place.frame.up.z, "", "lean of the face to the roof");
  out.push_back(upstand.gives(s.upstand));
  out.push_back(strip_figure(s.width));
  return out;
}

void say_runs_out(const Place& place, const RunsOut& runs_out, job::JunctionPlan& plan) {
  const practice::Rule& least = place.pack.rule("cheek.least_clear");
  plan.findings.push_back({job::Level::doubt,
                           "cheek.runs_out",
                           {{"at", place.face.from.s.in_mm(), "mm"},
                            {"least", least.value, "mm"},
                            {"length", place.frame.length.in_mm(), "mm"},
                            {"low", runs_out.low.in_mm(), "mm"},
                            {"high", runs_out.high.in_mm(), "mm"}},
                           "",
                           runs_out.high.in_mm(),
                           least.value,
                           least.source,
                           place.where()});
}

}  // namespace

std::optional<RunsOut> where_it_runs_out(const Place& place) {
  const std::vector<ClearAt>& clear = place.junction.clear;
  const job::Face& face = place.face;
  const bool climbs = face.kind == job::FaceKind::side || face.kind == job::FaceKind::skew;
  if (clear.empty() || !climbs) return std::nullopt;
  const Length least = place.pack.length("cheek.least_clear");
  const auto at = falls_to(clear, least, face.from.s, face.to.s);
  // What a hand cannot cut apart from the wall's end is the wall's end.
  if (!at || *at > face.to.s - tolerance::kHandCut) return std::nullopt;
  RunsOut out;
  const Length end = falls_to(clear, Length{}, *at, face.to.s).value_or(face.to.s);
  if (end > *at + tolerance::kHandCut) {
    out.boxed = face;
    out.boxed->from = point_at(face, *at);
    out.boxed->to = point_at(face, end);
  }
  out.low = clear_at(clear, *at);
  out.high = clear_at(clear, end);
  if (*at > face.from.s + tolerance::kHandCut) {
    out.open = face;
    out.open->to = point_at(face, *at);
  }
  return out;
}

Place at_part(const Place& place, const job::Face& part) {
  return {place.survey, place.slope, place.junction, part, frame_of(part, place.slope.pitch.value),
          place.layout, place.pack};
}

void plan_boxed_part(const Place& place, const RunsOut& runs_out, job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  say_runs_out(place, runs_out, plan);
  Strip s;
  s.leg = pack.length("cheek.leg");
  s.upstand = up_the_face(place, pack.length("cheek.upstand"));
  s.lap = lap_on_roof(place);
  s.code = practice::flashing_code(place.junction, pack);
  const practice::Rule& longest = practice::longest_flashing(s.code, pack);
  const auto pieces = equal_pieces(place.frame.length, Length::mm(longest.value), s.lap);
  if (!pieces) {
    plan.findings.push_back({job::Level::wrong,
                             "cover.no_room_for_lap",
                             {{"longest", longest.value, "mm"}, {"lap", s.lap.in_mm(), "mm"}},
                             "",
                             longest.value,
                             s.lap.in_mm(),
                             longest.source,
                             place.where()});
    return;
  }
  s.pieces = *pieces;
  const auto width = strip_for(place, s.leg + s.upstand, plan);
  if (!width) return;
  s.width = *width;

  const std::int64_t before = first_course(place);
  plan.work_before_course.push_back(
      {before,
       step_of(place, "work.cheek_courses",
               {{"at", place.face.from.s.in_mm(), "mm"}, {"least", pack.number("cheek.least_clear"), "mm"}}),
       -1});
  const Profile profile(place, s.upstand);
  for (std::int64_t i = 0; i < s.pieces.count; ++i) {
    const Length start = (s.pieces.length - s.lap) * static_cast<double>(i);
    const geom::Net net = for_face(strip_net(place, profile, start, s.pieces.length, s.leg), place.face);
    const GridPoint on_leg{to_grid(s.pieces.length) / 2, to_grid(s.leg) / 2};
    job::Piece piece = lead_piece("cheek-flashing", place, net, on_leg);
    piece.length = s.pieces.length;
    piece.width = s.width;
    piece.code = s.code;
    piece.count = 1;
    piece.figures = figures_of(place, s, longest);
    weigh(piece, pack);
    piece.placements.push_back({-2, on_roof(place, start, s.pieces.length, s.leg)});
    plan.work_before_course.push_back(
        {before,
         step_of(place, i == 0 ? "work.cheek_flashing" : "work.cheek_flashing_next",
                 {{"leg", s.leg.in_mm(), "mm"}, {"lap", s.lap.in_mm(), "mm"}}),
         static_cast<std::int64_t>(plan.pieces.size())});
    plan.pieces.push_back(std::move(piece));
  }
  const auto after = [&](std::string_view word) {
    plan.work_after_courses.push_back(step_of(place, word,
                                              {{"at", place.face.from.s.in_mm(), "mm"},
                                               {"length", place.frame.length.in_mm(), "mm"},
                                               {"low", runs_out.low.in_mm(), "mm"},
                                               {"high", runs_out.high.in_mm(), "mm"}}));
    plan.piece_of_work.push_back(-1);
  };
  after("work.cheek_box");
  after("work.cheek_soffit");
}

}  // namespace lapwright::pieces
