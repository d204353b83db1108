#include "secret_gutter.h"

#include "on_face.h"
#include "sheet.h"
#include "single_lap.h"
#include "slope_lap.h"
#include "soaker.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>

#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::Grid;
using geom::to_grid;
using job::Level;
using practice::Why;

// Across the channel.
struct Section {
  Length edge;     // up from the sole, on the roof's side
  Length sole;     // from that edge to the wall
  Length upstand;  // up the face from the sole
  Length below;    // of the sole, square to the roof, under the plane that the units lie in
  Length units;    // finished face above that plane
};

Section section_of(const Place& place) {
  const practice::Pack& pack = place.pack;
  Section s;
  s.below = pack.length("secret_gutter.depth");
  s.edge = s.below;
  s.sole = pack.length("secret_gutter.width");
  s.units = finished_face(place.slope.covering);
  s.upstand = up_the_face(place, s.below + s.units + pack.length("secret_gutter.upstand"));
  return s;
}

Length width_of(const Section& s) {
  return s.edge + s.sole + s.upstand;
}

geom::Net channel_net(const Section& s, Length length, Angle at_wall) {
  const Grid x = to_grid(length);
  const Grid low = to_grid(s.edge);
  const Grid wall = low + to_grid(s.sole);
  const Grid top = wall + to_grid(s.upstand);
  geom::Net net;
  net.outline = {{0, 0}, {x, 0}, {x, low}, {x, wall}, {x, top}, {0, top}, {0, wall}, {0, low}};
  net.roles = {EdgeRole::side, EdgeRole::head, EdgeRole::head, EdgeRole::head,
               EdgeRole::top,  EdgeRole::tail, EdgeRole::tail, EdgeRole::tail};
  net.folds.push_back({{0, wall}, {x, wall}, at_wall, true});
  net.folds.push_back({{0, low}, {x, low}, Angle::degrees(90), true});
  return net;
}

std::vector<job::Figure> figures_of(const Place& place, const Section& s, const EqualPieces& pieces,
                                    const practice::Rule& longest, Length lap, Length strip) {
  const practice::Pack& pack = place.pack;
  const job::Covering& c = place.slope.covering;
  const Length run = place.frame.length;
  const auto n = static_cast<double>(pieces.count);
  std::vector<job::Figure> out;
  Why count("pieces", pieces.count == 1 ? "ceil(run / most)" : "ceil((run - lap) / (most - lap))", "");
  count.term("run", run.in_mm(), "mm", "survey").rule("most", longest);
  if (pieces.count > 1) count.term("lap", lap.in_mm(), "mm", "figure lap");
  out.push_back(count.gives(n));
  out.push_back(Why("length", "(run + (n - 1) * lap) / n", "mm")
                    .term("run", run.in_mm(), "mm", "survey")
                    .term("n", n, "", "figure pieces")
                    .term("lap", lap.in_mm(), "mm", "figure lap")
                    .decided_by(longest)
                    .gives(pieces.length));
  out.push_back(slope_lap_figure(place, flattest_rise(place)));
  out.push_back(Why("depth", "d", "mm").rule("d", pack.rule("secret_gutter.depth")).gives(s.below));
  out.push_back(Why("sole", "w", "mm").rule("w", pack.rule("secret_gutter.width")).gives(s.sole));
  const bool square = place.frame.up.z == 1.0;
  Why upstand("upstand", square ? "d + t + c + u" : "(d + t + c + u) / k", "mm");
  upstand.rule("u", pack.rule("secret_gutter.upstand"))
      .rule("d", pack.rule("secret_gutter.depth"))
      .survey("t", c.thickness.most())
      .survey("c", c.camber.most());
  if (!square) upstand.term("k", place.frame.up.z, "", "lean of the face to the roof");
  out.push_back(upstand.gives(s.upstand));
  out.push_back(Why("width_needed", "d + w + upstand", "mm")
                    .rule("d", pack.rule("secret_gutter.depth"))
                    .rule("w", pack.rule("secret_gutter.width"))
                    .term("upstand", s.upstand.in_mm(), "mm", "figure upstand")
                    .gives(width_of(s)));
  out.push_back(strip_figure(strip));
  return out;
}

job::WorkStep step_of(const Place& place, std::string_view word, job::Params params) {
  job::WorkStep step;
  step.slope = place.slope.name;
  step.junction = place.junction.name;
  step.step = word;
  step.params = std::move(params);
  return step;
}

void say_narrow_gap(const Place& place, const std::string& where, job::JunctionPlan& plan) {
  const practice::Rule& usual = place.pack.rule("secret_gutter.unit_gap");
  for (const job::GapAt& gap : place.junction.gaps) {
    if (gap.width.value >= Length::mm(usual.value) - tolerance::kNoise) continue;
    plan.findings.push_back({Level::doubt,
                             "secret_gutter.gap_narrow",
                             {{"gap", gap.width.value.in_mm(), "mm"}, {"least", usual.value, "mm"}},
                             "",
                             gap.width.value.in_mm(),
                             usual.value,
                             usual.source,
                             where});
    return;
  }
}

void say_where_it_runs_out(const Place& place, const std::string& where, job::JunctionPlan& plan) {
  if (place.face.from.s <= tolerance::kHandCut) return;
  plan.findings.push_back({Level::doubt,
                           "secret_gutter.begins_up_slope",
                           {{"at", place.face.from.s.in_mm(), "mm"}},
                           "",
                           std::nullopt,
                           std::nullopt,
                           "common practice, no source",
                           where});
}

}  // namespace

bool plan_secret_gutter(const Place& place, job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  const std::string where = place.where();
  say_thickness(place, plan);
  const std::int64_t code = practice::flashing_code(place.junction, pack);
  const practice::Rule& thin = practice::longest_flashing(code, pack);
  const practice::Rule& own = pack.rule("secret_gutter.piece_most");
  const practice::Rule& longest = thin.value < own.value ? thin : own;
  const Length lap = lap_down_slope(place, flattest_rise(place));
  const auto pieces = equal_pieces(place.frame.length, Length::mm(longest.value), lap);
  if (!pieces) {
    plan.findings.push_back({Level::wrong,
                             "cover.no_room_for_lap",
                             {{"longest", longest.value, "mm"}, {"lap", lap.in_mm(), "mm"}},
                             "",
                             longest.value,
                             lap.in_mm(),
                             longest.source,
                             where});
    return false;
  }
  const Section s = section_of(place);
  const auto strip = strip_for(place, width_of(s), plan);
  if (!strip) return false;
  say_where_it_runs_out(place, where, plan);
  say_narrow_gap(place, where, plan);

  const geom::Net net = for_face(channel_net(s, pieces->length, place.frame.fold), place.face);
  job::Piece piece = lead_piece("secret-gutter", place, net,
                                {to_grid(pieces->length) / 2, to_grid(s.edge) + to_grid(s.sole) / 2});
  piece.length = pieces->length;
  piece.width = *strip;
  piece.code = code;
  piece.count = pieces->count;
  piece.figures = figures_of(place, s, *pieces, longest, lap, *strip);
  weigh(piece, pack);
  const auto index = static_cast<std::int64_t>(plan.pieces.size());
  const Length stop = max(pack.length("secret_gutter.batten_stop"), s.sole);
  plan.work_before_course.push_back({0,
                                     step_of(place, "work.secret_gutter_boards",
                                             {{"stop", stop.in_mm(), "mm"},
                                              {"least", pack.number("secret_gutter.batten_stop"), "mm"},
                                              {"depth", s.below.in_mm(), "mm"},
                                              {"sole", s.sole.in_mm(), "mm"}}),
                                     -1});
  // In the sole's plane; y = 0 of the net is the edge's top, folded up beside the sole.
  const Length leg = s.sole + s.edge;
  for (std::int64_t i = 0; i < pieces->count; ++i) {
    const Length start = (pieces->length - lap) * static_cast<double>(i);
    piece.placements.push_back({-2, on_roof(place, start, pieces->length, leg, -s.below)});
    plan.work_before_course.push_back(
        {0,
         step_of(place, i == 0 ? "work.secret_gutter" : "work.secret_gutter_next",
                 {{"at", (place.face.from.s + start * place.frame.along.y).in_mm(), "mm"},
                  {"lap", lap.in_mm(), "mm"}}),
         index});
  }
  plan.work_before_course.push_back(
      {0,
       step_of(place, "work.secret_gutter_units",
               {{"gap", practice::gap_beside(place.slope.covering, place.junction, pack).in_mm(), "mm"},
                {"sole", s.sole.in_mm(), "mm"}}),
       -1});
  plan.pieces.push_back(std::move(piece));
  return true;
}

}  // namespace lapwright::pieces
