// The gutter behind a stack, or above any face that water runs at.
//
//          upstand |        ___---  leg, up the slope under the units, over the tilting fillet
//                  |___---
//             face |sole, level; its far edge lies on the roof sole / cos(pitch) behind the face
//
// The net: leg | fold 1, up by the pitch | sole | fold 2, up 90 | upstand. Past each side of a stack the sole
// and the leg go on; there the upstand's strip is bossed along a line at 45° from the corner: one half turns
// round the corner, the other down over the units beside the stack.
#include "detail.h"
#include "on_face.h"
#include "sheet.h"
#include "soaker.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>

#include <algorithm>
#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::grid_point;
using geom::GridPoint;
using geom::to_grid;
using job::Level;
using practice::Why;

Judgement judge(const Place& place) {
  if (place.stand() != Stand::above) return Judgement::wrong("detail.not_at_this_face");
  return Judgement::right();
}

struct Sizes {
  Length leg;
  Length sole;
  Length upstand;
  Length past;
  Length roll;
  Length length;  // of a blank
  std::int64_t count = 1;
  Angle down;  // how far the ear's outer half turns down from level
};

geom::Net net_of(const Sizes& s, Length low, Length high, Length run, Angle pitch) {
  const bool ear_left = low < -tolerance::kGrid;
  const bool ear_right = high > run + tolerance::kGrid;
  const Length left = ear_left ? Length{} : low;
  const Length right = ear_right ? run : high;
  const Length foot = s.leg + s.sole;
  const Length top = foot + s.upstand;
  const auto at = [&](Length x, Length y) { return grid_point(x - low, y); };
  geom::Net net;
  net.outline = {at(low, Length{}), at(high, Length{}), at(high, top), at(low, top)};
  net.roles = {EdgeRole::head, ear_right ? EdgeRole::side : EdgeRole::lap, EdgeRole::top,
               ear_left ? EdgeRole::side : EdgeRole::lap};
  net.folds.push_back({at(low, s.leg), at(high, s.leg), pitch, true});
  net.folds.push_back({at(left, foot), at(right, foot), Angle::degrees(90), true});
  const Length reach = min(s.past, s.upstand);
  if (ear_left) {
    net.folds.push_back({at(left, foot), at(left, top), Angle::degrees(90), false});
    net.folds.push_back({at(low, foot), at(left, foot), s.down, false});
    net.cuts.push_back({at(left, foot), at(left - reach, foot + reach), true});
  }
  if (ear_right) {
    net.folds.push_back({at(right, foot), at(right, top), Angle::degrees(90), false});
    net.folds.push_back({at(right, foot), at(high, foot), s.down, false});
    net.cuts.push_back({at(right, foot), at(right + reach, foot + reach), true});
  }
  return net;
}

geom::Net strip_net(Length length, Length height, Length turn_in) {
  const geom::Grid x = to_grid(length);
  const geom::Grid fold = to_grid(height);
  const geom::Grid top = fold + to_grid(turn_in);
  geom::Net net;
  net.outline = {{0, 0}, {x, 0}, {x, fold}, {x, top}, {0, top}, {0, fold}};
  net.roles = {EdgeRole::foot, EdgeRole::lap, EdgeRole::lap, EdgeRole::turn_in, EdgeRole::lap, EdgeRole::lap};
  net.folds.push_back({{0, fold}, {x, fold}, Angle::degrees(90), false});
  return net;
}

// Over the gutter's upstand, turned into the joint above it.
void plan_cover(const Place& place, const Sizes& s, job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  const Length run = place.frame.length;
  const Length lap = pack.length("flashing.lap_along_wall");
  const std::int64_t code = practice::flashing_code(place.junction, pack);
  const practice::Rule& longest_rule = practice::longest_flashing(code, pack);
  const Length longest = Length::mm(longest_rule.value);
  const Length height = pack.length("back_gutter.cover_lap");
  const Length turn_in = pack.length("step.turn_in");
  const auto strip = pack.next_strip_width(height + turn_in - tolerance::kGrid);
  if (longest <= lap || !strip) return;
  const std::int64_t count = run <= longest + tolerance::kNoise ? 1 : whole_up((run - lap) / (longest - lap));
  const Length length = (run + lap * static_cast<double>(count - 1)) / static_cast<double>(count);
  job::Piece piece = lead_piece("cover-flashing", place, strip_net(length, height, turn_in),
                                {to_grid(length) / 2, to_grid(height) / 2});
  piece.length = length;
  piece.width = *strip;
  piece.code = code;
  piece.count = count;
  const auto n = static_cast<double>(count);
  piece.figures.push_back(Why("length", "(run + (n - 1) * lap) / n", "mm")
                              .term("run", run.in_mm(), "mm", "survey")
                              .term("n", n, "", "figure pieces")
                              .rule("lap", pack.rule("flashing.lap_along_wall"))
                              .gives(length));
  piece.figures.push_back(Why("width_needed", "h + t", "mm")
                              .rule("h", pack.rule("back_gutter.cover_lap"))
                              .rule("t", pack.rule("step.turn_in"))
                              .gives(height + turn_in));
  weigh(piece, pack);
  const auto index = static_cast<std::int64_t>(plan.pieces.size());
  const Length level = s.sole * tan(place.slope.pitch.value) + s.upstand - height;
  for (std::int64_t i = 0; i < count; ++i) {
    const Length start = (length - lap) * static_cast<double>(i);
    piece.placements.push_back({-2, on_wall(place, start, length, level)});
    job::WorkStep work;
    work.slope = place.slope.name;
    work.junction = place.junction.name;
    work.step = i == 0 ? "work.gutter_cover" : "work.gutter_cover_next";
    work.params = {
        {"lap", lap.in_mm(), "mm"}, {"over", height.in_mm(), "mm"}, {"turn_in", turn_in.in_mm(), "mm"}};
    plan.work_after_courses.push_back(std::move(work));
    plan.piece_of_work.push_back(index);
  }
  plan.pieces.push_back(std::move(piece));
}

std::vector<job::Figure> figures_of(const Place& place, const Sizes& s) {
  const practice::Pack& pack = place.pack;
  std::vector<job::Figure> out;
  out.push_back(Why("girth", "up + sole + leg", "mm")
                    .rule("up", pack.rule("back_gutter.upstand"))
                    .rule("sole", pack.rule("back_gutter.sole"))
                    .rule("leg", pack.rule("back_gutter.leg"))
                    .gives(s.upstand + s.sole + s.leg));
  out.push_back(Why("length", "(run + 2 * past + (n - 1) * roll) / n", "mm")
                    .term("run", place.frame.length.in_mm(), "mm", "survey")
                    .rule("past", pack.rule("back_gutter.past"))
                    .term("n", static_cast<double>(s.count), "", "figure pieces")
                    .rule("roll", pack.rule("back_gutter.roll"))
                    .gives(s.length));
  out.push_back(Why("sole_above", "sole * tan(pitch)", "mm")
                    .rule("sole", pack.rule("back_gutter.sole"))
                    .survey("pitch", place.slope.pitch.value)
                    .gives(s.sole * tan(place.slope.pitch.value)));
  out.push_back(Why("fillet", "f", "mm")
                    .rule("f", pack.rule("back_gutter.fillet"))
                    .gives(pack.length("back_gutter.fillet")));
  out.push_back(Why("stretch", "90 + down", "deg")
                    .term("down", s.down.in_degrees(), "deg", "how far the ear turns down")
                    .gives(90.0 + s.down.in_degrees()));
  if (s.count > 1) {
    out.push_back(Why("rise", "(run / 2 + past) / fall", "mm")
                      .term("run", place.frame.length.in_mm(), "mm", "survey")
                      .rule("past", pack.rule("back_gutter.past"))
                      .rule("fall", pack.rule("back_gutter.fall"))
                      .decided_by(pack.rule("back_gutter.fall"))
                      .gives((place.frame.length / 2.0 + s.past) / pack.number("back_gutter.fall")));
  }
  return out;
}

Result<void> plan(const Place& place, job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  const Angle pitch = place.slope.pitch.value;
  const Length run = place.frame.length;
  Sizes s;
  s.leg = pack.length("back_gutter.leg");
  s.sole = pack.length("back_gutter.sole");
  s.upstand = pack.length("back_gutter.upstand");
  s.past = pack.length("back_gutter.past");
  s.roll = pack.length("back_gutter.roll");
  const Length all = run + s.past * 2.0;
  const practice::Rule& most = pack.rule("back_gutter.one_piece_most");
  // An even number, so that the roll stands where the falls part.
  if (all > Length::mm(most.value)) s.count = 2 * whole_up((all + s.roll) / (2.0 * Length::mm(most.value)));
  s.length = (all + s.roll * static_cast<double>(s.count - 1)) / static_cast<double>(s.count);
  // The ear turns down until its far corner lies on the units beside the stack, or hangs straight down.
  const Length above_units = s.sole * sin(pitch) - finished_face(place.slope.covering);
  const Length ear = min(s.past, s.upstand);
  const double sine = std::clamp(above_units / ear, 0.0, 1.0);
  s.down = Angle::degrees(std::min(90.0, pitch.in_degrees() + asin_deg(sine)));
  const Length far_edge = place.face.from.s + s.sole / cos(pitch);
  const Length left = place.slope.rafter.value - far_edge;
  if (left < s.leg) {
    plan.findings.push_back({left <= Length{} ? Level::wrong : Level::doubt,
                             "stack.near_the_ridge",
                             {{"left", max(left, Length{}).in_mm(), "mm"}, {"leg", s.leg.in_mm(), "mm"}},
                             "",
                             left.in_mm(),
                             s.leg.in_mm(),
                             "geometry",
                             place.where()});
    if (left <= Length{}) return {};
  }
  const Length girth = s.leg + s.sole + s.upstand;
  const auto strip = pack.next_strip_width(girth - tolerance::kGrid);
  if (!strip) {
    plan.findings.push_back({Level::wrong,
                             "step.no_strip",
                             {{"needed", girth.in_mm(), "mm"}, {"joint", s.upstand.in_mm(), "mm"}},
                             "",
                             girth.in_mm(),
                             pack.strip_widths().back().in_mm(),
                             "geometry",
                             place.where()});
    return {};
  }
  // A corner that is bossed is worked thin: the guide asks for the next code.
  const std::int64_t code = std::max(practice::flashing_code(place.junction, pack),
                                     static_cast<std::int64_t>(pack.number("flashing.code_exposed")));
  std::int64_t before = 0;
  for (const job::Course& course : place.layout.courses) {
    if (course.tail + course.length > far_edge) break;
    ++before;
  }
  const std::size_t first = plan.pieces.size();
  for (std::int64_t i = 0; i < s.count; ++i) {
    const Length low = (s.length - s.roll) * static_cast<double>(i) - s.past;
    const geom::Net net = for_face(net_of(s, low, low + s.length, run, pitch), place.face);
    std::size_t index = first;
    while (index < plan.pieces.size() && !geom::same_net(plan.pieces[index].net, net)) ++index;
    if (index == plan.pieces.size()) {
      job::Piece piece = lead_piece("back-gutter", place, net, {to_grid(s.length) / 2, to_grid(s.leg) / 2});
      piece.length = s.length;
      piece.width = *strip;
      piece.code = code;
      piece.figures = figures_of(place, s);
      weigh(piece, pack);
      plan.pieces.push_back(std::move(piece));
    }
    job::Piece& piece = plan.pieces[index];
    piece.placements.push_back({-2, on_roof(place, low, s.length, s.leg + s.sole / cos(pitch))});
    piece.count += 1;
    job::WorkStep work;
    work.slope = place.slope.name;
    work.junction = place.junction.name;
    work.step = i > 0 ? "work.back_gutter_next" : s.count > 1 ? "work.back_gutter_falls" : "work.back_gutter";
    work.params = {{"sole", s.sole.in_mm(), "mm"},
                   {"fillet", pack.number("back_gutter.fillet"), "mm"},
                   {"leg", s.leg.in_mm(), "mm"},
                   {"past", s.past.in_mm(), "mm"},
                   {"fall", pack.number("back_gutter.fall"), ""}};
    plan.work_before_course.push_back({before, std::move(work), static_cast<std::int64_t>(index)});
  }
  plan_cover(place, s, plan);
  return {};
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& back_gutter_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
