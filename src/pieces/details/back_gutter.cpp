// The gutter behind a stack, or above any face that water runs at.
//
// The net: leg | fold 1, up by the tilt | sole | fold 2, up | upstand (gutter_section.h). Past each side of a
// stack the sole and the leg go on; there the upstand's strip is worked from the corner: the part next to the
// upstand turns round onto the stack's side, the part next to the sole down until its edge lies on the units
// beside the stack. Welded, that strip is cut away and a corner piece takes its place.
#include "corner.h"
#include "detail.h"
#include "gutter_falls.h"
#include "gutter_section.h"
#include "joint_above.h"
#include "on_face.h"
#include "sheet.h"
#include "soaker.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>

#include <algorithm>
#include <array>
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
  GutterSection section;
  Length leg;
  Length upstand;
  Length past;  // each side of a stack; nothing at a wall's end
  Spill spill;
  Length drip;  // what neighbours share at a drip
  Roll roll;
  Length length;  // of the longest blank
  std::int64_t count = 1;
  bool welded = false;
  bool has_roll = false;  // in the middle, where the falls part

  // What pieces i - 1 and i share.
  Length shared(std::int64_t i) const {
    if (i <= 0 || i >= count) return {};
    return has_roll && 2 * i == count ? roll.beyond * 2.0 : drip;
  }

  Length girth() const { return leg + section.sole + upstand; }
  // What bossed ears take beyond the upstand's height.
  Length blank() const {
    return past > Length{} && !welded ? leg + section.sole + max(upstand, spill.length) : girth();
  }
};

geom::Net net_of(const Sizes& s, Length low, Length high, Length run) {
  const bool past_left = low < -tolerance::kGrid;
  const bool past_right = high > run + tolerance::kGrid;
  const Length left = past_left ? Length{} : low;
  const Length right = past_right ? run : high;
  const Length foot = s.leg + s.section.sole;
  const Length top = foot + s.upstand;
  // At 45° from the corner, so far that half of the ear's width is left to come down at its edge.
  const Length reach = min(s.past, s.upstand) / 2.0;
  const Length ear = foot + s.spill.length;
  const bool longer = to_grid(ear) > to_grid(top);
  const auto at = [&](Length x, Length y) { return grid_point(x - low, y); };
  geom::Net net;
  const auto add = [&](GridPoint p, EdgeRole role) {
    net.outline.push_back(p);
    net.roles.push_back(role);
  };
  add(at(low, Length{}), EdgeRole::head);
  add(at(high, Length{}), past_right ? EdgeRole::side : EdgeRole::lap);
  if (past_right && s.welded) {
    add(at(high, foot), EdgeRole::plain);
    add(at(right, foot), EdgeRole::plain);
  } else if (past_right && longer) {
    add(at(high, ear), EdgeRole::foot);
    add(at(right + reach, ear), EdgeRole::plain);
    add(at(right + reach, top), EdgeRole::top);
  }
  if (!past_right || s.welded) add(at(right, top), EdgeRole::top);
  if (past_right && !s.welded && !longer) add(at(high, top), EdgeRole::top);
  const EdgeRole left_end = past_left ? EdgeRole::side : EdgeRole::lap;
  if (past_left && s.welded) {
    add(at(left, top), EdgeRole::plain);
    add(at(left, foot), EdgeRole::plain);
    add(at(low, foot), left_end);
  } else if (past_left && longer) {
    add(at(left - reach, top), EdgeRole::plain);
    add(at(left - reach, ear), EdgeRole::foot);
    add(at(low, ear), left_end);
  } else {
    add(at(low, top), left_end);
  }
  net.folds.push_back({at(low, s.leg), at(high, s.leg), s.section.tilt, true});
  net.folds.push_back({at(left, foot), at(right, foot), s.section.turn, true});
  if (s.welded) return net;
  const auto work_ear = [&](Length corner, Length end, Length side) {
    net.folds.push_back({at(corner, foot), at(corner, top), Angle::degrees(90), false});
    net.folds.push_back({at(corner, foot), at(end, foot), s.spill.down, false});
    net.cuts.push_back({at(corner, foot), at(corner + side, foot + reach), true});
    net.cuts.push_back({at(corner + side, foot + reach), at(corner + side, top), true});
  };
  if (past_left) work_ear(left, low, -reach);
  if (past_right) work_ear(right, high, reach);
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

// The cover flashing's height: down over the upstand, and up to what it turns into.
struct CoverHeight {
  Length height;
  job::Figure figure;
};
CoverHeight cover_height(const Place& place, const Sizes& s) {
  const practice::Pack& pack = place.pack;
  const practice::Rule& lap = pack.rule("back_gutter.cover_lap");
  const Length over = Length::mm(lap.value);
  const bool level = place.face.kind == job::FaceKind::back;
  // Joints are measured from the roof's surface at a stack's front; behind it the roof has climbed.
  const Length climbed = place.junction.kind == job::JunctionKind::stack
                             ? *place.junction.depth * tan(place.slope.pitch.value)
                             : Length{};
  const Length from_units =
      s.section.level + s.upstand - up_the_face(place, finished_face(place.slope.covering));
  const Length top = climbed + from_units * place.frame.steepness;
  if (const auto joint = level ? joint_above(place, top) : std::nullopt) {
    const Length height = (*joint - top) / place.frame.steepness + over;
    return {height, Why("height", "(joint - top) / k + lap", "mm")
                        .rule("lap", lap)
                        .term("joint", joint->in_mm(), "mm", "bed joint that it turns into")
                        .term("top", top.in_mm(), "mm", "top of the upstand, measured as the joints are")
                        .term("k", place.frame.steepness, "", "height gained by going up the face")
                        .gives(height)};
  }
  if (place.junction.wall.kind != job::WallKind::brick) {
    return {over, Why("height", "lap", "mm").rule("lap", lap).gives(over)};
  }
  // The next joint is no further than a course.
  const Length course = practice::brick_course(place.junction.wall, pack).most();
  return {over + course, Why("height", "lap + course", "mm")
                             .rule("lap", lap)
                             .term("course", course.in_mm(), "mm", "course of bricks, at most")
                             .gives(over + course)};
}

// Over the gutter's upstand, turned into the joint above it.
void plan_cover(const Place& place, const Sizes& s, job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  const Length run = place.frame.length;
  const Length lap = pack.length("flashing.lap_along_wall");
  const std::int64_t code = practice::flashing_code(place.junction, pack);
  const practice::Rule& longest_rule = practice::longest_flashing(code, pack);
  const Length longest = Length::mm(longest_rule.value);
  CoverHeight cover = cover_height(place, s);
  const Length height = cover.height;
  const Length turn_in = pack.length("step.turn_in");
  const auto strip = pack.next_strip_width(height + turn_in - tolerance::kGrid);
  if (longest <= lap || !strip) {
    plan.findings.push_back({Level::wrong,
                             longest <= lap ? "cover.no_room_for_lap" : "step.no_strip",
                             {{"longest", longest.in_mm(), "mm"},
                              {"lap", lap.in_mm(), "mm"},
                              {"needed", (height + turn_in).in_mm(), "mm"},
                              {"joint", height.in_mm(), "mm"}},
                             "",
                             std::nullopt,
                             std::nullopt,
                             longest_rule.source,
                             place.where()});
    return;
  }
  const std::int64_t count = run <= longest + tolerance::kNoise ? 1 : whole_up((run - lap) / (longest - lap));
  const Length length = (run + lap * static_cast<double>(count - 1)) / static_cast<double>(count);
  job::Piece piece = lead_piece("cover-flashing", place, strip_net(length, height, turn_in),
                                {to_grid(length) / 2, to_grid(height) / 2});
  piece.length = length;
  piece.width = *strip;
  piece.code = code;
  piece.count = count;
  const auto n = static_cast<double>(count);
  Why pieces("pieces", count == 1 ? "ceil(run / most)" : "ceil((run - lap) / (most - lap))", "");
  pieces.term("run", run.in_mm(), "mm", "survey").rule("most", longest_rule);
  if (count > 1) pieces.rule("lap", pack.rule("flashing.lap_along_wall"));
  piece.figures.push_back(pieces.gives(n));
  piece.figures.push_back(Why("length", "(run + (n - 1) * lap) / n", "mm")
                              .term("run", run.in_mm(), "mm", "survey")
                              .term("n", n, "", "figure pieces")
                              .rule("lap", pack.rule("flashing.lap_along_wall"))
                              .gives(length));
  piece.figures.push_back(std::move(cover.figure));
  piece.figures.push_back(Why("width_needed", "h + t", "mm")
                              .term("h", height.in_mm(), "mm", "figure height")
                              .rule("t", pack.rule("step.turn_in"))
                              .gives(height + turn_in));
  weigh(piece, pack);
  const auto index = static_cast<std::int64_t>(plan.pieces.size());
  const Length over = pack.length("back_gutter.cover_lap");
  const Length level = s.section.level + s.upstand - over;
  for (std::int64_t i = 0; i < count; ++i) {
    const Length start = (length - lap) * static_cast<double>(i);
    piece.placements.push_back({-2, on_wall(place, start, length, level)});
    job::WorkStep work;
    work.slope = place.slope.name;
    work.junction = place.junction.name;
    work.step = i == 0 ? "work.gutter_cover" : "work.gutter_cover_next";
    work.params = {
        {"lap", lap.in_mm(), "mm"}, {"over", over.in_mm(), "mm"}, {"turn_in", turn_in.in_mm(), "mm"}};
    plan.work_after_courses.push_back(std::move(work));
    plan.piece_of_work.push_back(index);
  }
  plan.pieces.push_back(std::move(piece));
}

std::vector<job::Figure> figures_of(const Place& place, const Sizes& s) {
  const practice::Pack& pack = place.pack;
  std::vector<job::Figure> out;
  const Angle tilt = s.section.tilt;
  const auto say_tilt = [&](Why& why) {
    if (place.face.kind == job::FaceKind::back) {
      why.survey("tilt", tilt);
    } else {
      why.term("tilt", tilt.in_degrees(), "deg", "the two planes");
    }
  };
  Why sole("sole", "max(least, units / sin(tilt))", "mm");
  sole.rule("least", pack.rule("back_gutter.sole")).survey("units", finished_face(place.slope.covering));
  say_tilt(sole);
  out.push_back(sole.gives(s.section.sole));
  out.push_back(Why("girth", "up + sole + leg", "mm")
                    .rule("up", pack.rule("back_gutter.upstand"))
                    .term("sole", s.section.sole.in_mm(), "mm", "figure sole")
                    .rule("leg", pack.rule("back_gutter.leg"))
                    .gives(s.girth()));
  if (place.face.lean == Angle{}) {
    Why above("sole_above", "sole * tan(tilt)", "mm");
    above.term("sole", s.section.sole.in_mm(), "mm", "figure sole");
    say_tilt(above);
    out.push_back(above.gives(s.section.sole * tan(tilt)));
  }
  out.push_back(Why("fillet", "f", "mm")
                    .rule("f", pack.rule("back_gutter.fillet"))
                    .gives(pack.length("back_gutter.fillet")));
  if (s.past > Length{}) {
    Why down("down", "tilt + off", "deg");
    say_tilt(down);
    const double off = (s.spill.down - tilt).in_degrees();
    down.term("off", off, "deg", "off the roof, until its edge lies on the units");
    out.push_back(down.gives(s.spill.down.in_degrees()));
    if (!s.welded) {
      out.push_back(Why("stretch", "90 + down", "deg")
                        .term("down", s.spill.down.in_degrees(), "deg", "figure down")
                        .gives(90.0 + s.spill.down.in_degrees()));
      out.push_back(Why("blank", "leg + sole + max(up, ear)", "mm")
                        .rule("leg", pack.rule("back_gutter.leg"))
                        .term("sole", s.section.sole.in_mm(), "mm", "figure sole")
                        .rule("up", pack.rule("back_gutter.upstand"))
                        .term("ear", s.spill.length.in_mm(), "mm", "down to the units beside the stack")
                        .gives(s.blank()));
    }
  }
  if (s.has_roll) {
    for (job::Figure& f : fall_figures(place, s.section, s.past)) out.push_back(std::move(f));
    for (job::Figure& f : roll_figures(pack)) out.push_back(std::move(f));
  }
  return out;
}

// Of piece i: its bay, and at either end half of what it shares with its neighbour.
job::Figure length_figure(const Place& place, const Sizes& s, std::int64_t i) {
  const auto half = [&](std::int64_t joint) { return s.shared(joint) / 2.0; };
  const auto from = [&](std::int64_t joint) {
    return half(joint) == Length{}              ? "an end of the gutter"
           : s.has_roll && 2 * joint == s.count ? "figure roll_beyond"
                                                : "half of rule back_gutter.roll";
  };
  const auto n = static_cast<double>(s.count);
  const Length bay = (place.frame.length + s.past * 2.0) / n;
  return Why("length", "(run + 2 * past) / n + left + right", "mm")
      .term("run", place.frame.length.in_mm(), "mm", "survey")
      .term("past", s.past.in_mm(), "mm", s.past > Length{} ? "rule back_gutter.past" : "no corner here")
      .term("n", n, "", "figure pieces")
      .term("left", half(i).in_mm(), "mm", from(i))
      .term("right", half(i + 1).in_mm(), "mm", from(i + 1))
      .gives(bay + half(i) + half(i + 1));
}

// Code of a gutter: bossed corners take the next one, and the sheet between its folds and rolls may be no
// larger than its code allows.
struct GutterCode {
  std::int64_t code = 0;
  bool fits = false;
};
GutterCode code_for(const Place& place, const Sizes& s) {
  struct Bay {
    std::int64_t code;
    std::string_view spacing;
    std::string_view length;
  };
  static constexpr std::array<Bay, 5> kBays{{{4, "bay.spacing_4", "bay.length_4"},
                                             {5, "bay.spacing_5", "bay.length_5"},
                                             {6, "bay.spacing_6", "bay.length_6"},
                                             {7, "bay.spacing_7", "bay.length_7"},
                                             {8, "bay.spacing_8", "bay.length_8"}}};
  const practice::Pack& pack = place.pack;
  std::int64_t least = practice::flashing_code(place.junction, pack);
  if (s.past > Length{} && !s.welded)
    least = std::max(least, static_cast<std::int64_t>(pack.number("flashing.code_exposed")));
  for (const Bay& bay : kBays) {
    if (bay.code < least) continue;
    if (s.girth() <= pack.length(bay.spacing) + tolerance::kNoise &&
        s.length <= pack.length(bay.length) + tolerance::kNoise) {
      return {bay.code, true};
    }
  }
  return {std::max(least, kBays.back().code), false};
}

void say_place(const Place& place, const Sizes& s, Length left, job::JunctionPlan& plan) {
  if (left >= s.leg) return;
  plan.findings.push_back({left <= Length{} ? Level::wrong : Level::doubt,
                           "stack.near_the_ridge",
                           {{"left", max(left, Length{}).in_mm(), "mm"}, {"leg", s.leg.in_mm(), "mm"}},
                           "",
                           left.in_mm(),
                           s.leg.in_mm(),
                           "geometry",
                           place.where()});
}

void add_corners(const Place& place, const Sizes& s, std::int64_t code, std::int64_t course,
                 job::JunctionPlan& plan) {
  for (const bool right : {false, true}) {
    const double x = right ? place.frame.length.in_mm() : 0;
    const geom::Vec3 corner =
        place.frame.foot + x * place.frame.along + s.section.level.in_mm() * place.frame.up;
    add_corner(place, gutter_corner(place, corner, s.past, s.upstand, s.spill.length, s.spill.down, right),
               right, code, course, plan);
  }
}

Result<void> plan(const Place& place, job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  const Length run = place.frame.length;
  const bool stack = place.junction.kind == job::JunctionKind::stack;
  Sizes s;
  s.section = gutter_section(place);
  s.leg = pack.length("back_gutter.leg");
  s.upstand = pack.length("back_gutter.upstand");
  s.past = stack ? pack.length("back_gutter.past") : Length{};
  s.drip = pack.length("back_gutter.roll");
  s.welded = stack && place.junction.corners == job::Corners::welded;
  s.spill = spill_of(s.section, s.welded ? pack.length("back_gutter.spill") : s.upstand);
  const Length all = run + s.past * 2.0;
  const practice::Rule& most = pack.rule("back_gutter.one_piece_most");
  // Behind a stack an even number, so that a roll stands where the falls part; every other joint, over which
  // the water runs, is a drip.
  const Length longest = Length::mm(most.value);
  if (all > longest && stack) {
    s.has_roll = true;
    s.roll = roll_of(pack);
    s.count =
        all / 2.0 + s.roll.beyond <= longest
            ? 2
            : 2 * std::max<std::int64_t>(2, whole_up(all / ((longest - s.roll.beyond - s.drip / 2.0) * 2.0)));
  } else if (all > longest) {
    s.count = std::max<std::int64_t>(2, whole_up((all + s.drip) / longest));
  }
  const Length bay = all / static_cast<double>(s.count);
  for (std::int64_t i = 0; i < s.count; ++i)
    s.length = max(s.length, bay + (s.shared(i) + s.shared(i + 1)) / 2.0);
  const Length far_edge = place.face.from.s + s.section.far * place.frame.away.y;
  const Length highest = max(far_edge, place.face.to.s + s.section.far * place.frame.away.y);
  const Length left = place.slope.rafter.value - highest;
  say_place(place, s, left, plan);
  if (left <= Length{}) return {};
  if (!stack) judge_fall_along(place, s.section, plan.findings);
  if (stack && s.count > 1) judge_fall_to_both_sides(place, s.section, s.past, plan.findings);
  const auto strip = pack.next_strip_width(s.blank() - tolerance::kGrid);
  if (!strip) {
    plan.findings.push_back(
        {Level::note,
         "back_gutter.wide_sheet",
         {{"needed", s.blank().in_mm(), "mm"}, {"widest", pack.strip_widths().back().in_mm(), "mm"}},
         "",
         s.blank().in_mm(),
         pack.strip_widths().back().in_mm(),
         pack.strip_widths_source(),
         place.where()});
  }
  const GutterCode code = code_for(place, s);
  if (!code.fits) {
    plan.findings.push_back({Level::doubt,
                             "back_gutter.bay_too_large",
                             {{"girth", s.girth().in_mm(), "mm"}, {"length", s.length.in_mm(), "mm"}},
                             "",
                             s.length.in_mm(),
                             pack.number("bay.length_8"),
                             pack.rule("bay.length_8").source,
                             place.where()});
  }
  std::int64_t before = 0;
  for (const job::Course& course : place.layout.courses) {
    if (course.tail + course.length > far_edge) break;
    ++before;
  }
  const std::size_t first = plan.pieces.size();
  for (std::int64_t i = 0; i < s.count; ++i) {
    const Length low = bay * static_cast<double>(i) - s.past - s.shared(i) / 2.0;
    const Length length = bay + (s.shared(i) + s.shared(i + 1)) / 2.0;
    const geom::Net net = for_face(net_of(s, low, low + length, run), place.face);
    std::size_t index = first;
    while (index < plan.pieces.size() && !geom::same_net(plan.pieces[index].net, net)) ++index;
    if (index == plan.pieces.size()) {
      job::Piece piece = lead_piece("back-gutter", place, net, {to_grid(length) / 2, to_grid(s.leg) / 2});
      piece.length = length;
      piece.width = strip.value_or(s.blank());
      piece.code = code.code;
      piece.figures = figures_of(place, s);
      piece.figures.push_back(length_figure(place, s, i));
      weigh(piece, pack);
      plan.pieces.push_back(std::move(piece));
    }
    job::Piece& piece = plan.pieces[index];
    piece.placements.push_back({-2, on_roof(place, low, length, s.leg + s.section.far)});
    piece.count += 1;
    job::WorkStep work;
    work.slope = place.slope.name;
    work.junction = place.junction.name;
    work.step = i > 0 && 2 * i == s.count && s.has_roll ? "work.back_gutter_next"
                : i > 0                                 ? "work.back_gutter_drip"
                : !stack                                ? "work.back_gutter_wall"
                : s.count > 1                           ? "work.back_gutter_falls"
                                                        : "work.back_gutter";
    work.params = {{"sole", s.section.sole.in_mm(), "mm"},
                   {"fillet", pack.number("back_gutter.fillet"), "mm"},
                   {"leg", s.leg.in_mm(), "mm"},
                   {"past", s.past.in_mm(), "mm"},
                   {"corners", s.welded ? "corner.weld" : "corner.boss", "key"},
                   {"drip", pack.number("back_gutter.drip"), "mm"},
                   {"core", s.roll.core.in_mm(), "mm"},
                   {"core_length", (s.section.sole + s.leg).in_mm(), "mm"},
                   {"under", s.roll.under.in_mm(), "mm"},
                   {"over", s.roll.over.in_mm(), "mm"},
                   {"fall", pack.number("back_gutter.fall"), ""}};
    plan.work_before_course.push_back({before, std::move(work), static_cast<std::int64_t>(index)});
  }
  if (s.welded) add_corners(place, s, code.code, before, plan);
  plan_cover(place, s, plan);
  return {};
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& back_gutter_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
