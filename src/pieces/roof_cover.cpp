#include "roof_cover.h"

#include "slope_lap.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>

#include <algorithm>
#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::Grid;
using geom::GridPoint;
using job::Level;
using practice::Why;

// Of a roll, in roll pitches: where the first crown stands in from the tile's edge, and from a crown to its
// roll's far side. What a sine has; the survey does not say.
constexpr double kFirstCrown = 0.5;
constexpr double kFarSide = 0.25;

void say_cover(const Place& place, const RoofCover& cover, job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  const practice::Rule& most = pack.rule("cover.width_most");
  if (!cover.rolls_known) {
    plan.findings.push_back({Level::doubt,
                             "cover.rolls_unknown",
                             {{"cover", cover.flat.in_mm(), "mm"}},
                             "",
                             std::nullopt,
                             std::nullopt,
                             "survey",
                             place.where()});
    return;
  }
  if (cover.flat <= Length::mm(most.value) + tolerance::kNoise) return;
  plan.findings.push_back({Level::doubt,
                           "cover.wider_than_usual",
                           {{"cover", cover.flat.in_mm(), "mm"}, {"most", most.value, "mm"}},
                           "",
                           cover.flat.in_mm(),
                           most.value,
                           most.source,
                           place.where()});
}

}  // namespace

RoofCover roof_cover(const Place& place, job::JunctionPlan& plan) {
  const job::Covering& c = place.slope.covering;
  const Length least = place.pack.length("cover.width");
  RoofCover out;
  out.gap = practice::widest_gap(place.junction, place.pack);
  out.rolls_known = c.roll_pitch && c.roll_depth;
  if (out.rolls_known) {
    const Length p = *c.roll_pitch;
    const Length first = out.gap + p * (kFirstCrown + kFarSide);
    out.rolls_before = std::max<std::int64_t>(0, whole_up((least - first) / p));
    out.flat = first + p * static_cast<double>(out.rolls_before);
    const double steepness = kPi * (*c.roll_depth / p);
    out.developed = out.flat * square_root(1 + steepness * steepness / 2);
  } else {
    out.flat = least;
    out.developed = least;
  }
  say_cover(place, out, plan);
  return out;
}

WithCover with_cover(geom::Net net, Length cover, Angle fold) {
  const GridPoint from = net.outline[0];
  const GridPoint to = net.outline[1];
  const bool has_foot = net.roles[0] == EdgeRole::foot && from.y == to.y &&
                        geom::to_length(to.x - from.x) > tolerance::kHandCut;
  if (!has_foot) return {std::move(net), {}};
  const Grid down = geom::to_grid(cover);
  // The outline goes round the cover before it comes back to the foot's far end.
  net.roles[0] = EdgeRole::lap;
  net.outline.insert(net.outline.begin() + 1, {{from.x, from.y - down}, {to.x, to.y - down}});
  net.roles.insert(net.roles.begin() + 1, {EdgeRole::side, EdgeRole::lap});
  net.folds.insert(net.folds.begin(), {from, to, fold, true});
  return {geom::at_origin(net), geom::to_length(down)};
}

const practice::Rule& clip_spacing(const Place& place) {
  return place.pack.rule(is_exposed(place.survey.exposure) ? "clip.spacing_exposed" : "clip.spacing");
}

std::int64_t clips_for(const Place& place, Length edge) {
  return whole_up(edge.in_mm() / clip_spacing(place).value);
}

Length lap_on_roof(const Place& place) {
  return max(place.pack.length("flashing.lap_along_wall"), lap_down_slope(place, flattest_rise(place)));
}

std::vector<job::Figure> cover_figures(const Place& place, const RoofCover& cover, Length edge) {
  const practice::Pack& pack = place.pack;
  const job::Covering& c = place.slope.covering;
  std::vector<job::Figure> out;
  if (cover.rolls_known) {
    Why flat("cover", "gap + p / 2 + k * p + p / 4", "mm");
    if (place.junction.gaps.empty()) {
      flat.rule("gap", pack.rule("wall.gap"));
    } else {
      flat.survey("gap", cover.gap);
    }
    out.push_back(flat.survey("p", *c.roll_pitch)
                      .term("k", static_cast<double>(cover.rolls_before), "", "rolls before the last")
                      .decided_by(pack.rule("cover.width"))
                      .gives(cover.flat));
    out.push_back(Why("cover_developed",
                      "cover * sqrt(1 + (3.141592653589793 * d / p) * (3.141592653589793 * d / p) / 2)", "mm")
                      .term("cover", cover.flat.in_mm(), "mm", "figure cover")
                      .survey("d", *c.roll_depth)
                      .survey("p", *c.roll_pitch)
                      .gives(cover.developed));
  } else {
    out.push_back(Why("cover_flat", "least", "mm").rule("least", pack.rule("cover.width")).gives(cover.flat));
  }
  const practice::Rule& spacing = clip_spacing(place);
  out.push_back(Why("clips", "ceil(edge / spacing)", "")
                    .term("edge", edge.in_mm(), "mm", "figure length")
                    .rule("spacing", spacing)
                    .gives(static_cast<double>(clips_for(place, edge))));
  return out;
}

void add_cover_params(const Place& place, const RoofCover& cover, Length edge, job::Params& params) {
  params.push_back({"cover", cover.flat.in_mm(), "mm"});
  params.push_back({"clips", static_cast<double>(clips_for(place, edge)), ""});
  params.push_back({"clip", place.pack.number("clip.width"), "mm"});
  params.push_back({"spacing", clip_spacing(place).value, "mm"});
}

}  // namespace lapwright::pieces
