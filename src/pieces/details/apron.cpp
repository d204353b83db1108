// Lead dressed down over the units below a face: the front of a stack, a top abutment.
//
//      y ^   +---------------------------+  turn-in, into the joint
//        |   |- - - - - - - - - - - - - -|  fold 2
//        | +-|        upstand            |-+
//        | |/ fold 1 (the face's angle)   \| ear: worked from the corner, half turned round the stack's side
//        | +- - - - - - - - - - - - - - - -+
//        | |   cover on the units          |
//        | +-------------------------------+
//        +----------------------------------> x  along the face
//
// On a double-lap covering without a short top course the cover is G + H, so that the last full margin and
// the lap below it are covered.
#include "corner.h"
#include "detail.h"
#include "joint_above.h"
#include "on_face.h"
#include "roof_cover.h"
#include "sheet.h"
#include "soaker.h"
#include "stack_place.h"
#include "turned_end.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>

#include <cmath>
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
  switch (place.stand()) {
    case Stand::below:
      return Judgement::right();
    case Stand::beside:
      return Judgement::wrong("detail.apron_at_side");
    case Stand::above:
      return Judgement::wrong("detail.apron_holds_water");
    case Stand::around:
      break;
  }
  return Judgement::wrong("detail.not_at_this_face");
}

struct Sizes {
  Length cover;    // up the slope
  Length square;   // the same square to the foot line
  Length upstand;  // up the face, from the units
  Length turn_in;
  Length past;      // each side of a stack
  TurnedEnds ends;  // of a top abutment
  Length lap;
  Length length;  // of a blank
  std::int64_t count = 1;
};

const practice::Rule& cover_rule(const Place& place) {
  return place.pack.rule(is_exposed(place.survey.exposure) ? "apron.cover_severe" : "apron.cover");
}

// To the lowest bed joint that is high enough, where the survey says where the joints are and the foot is
// level.
Length upstand_of(const Place& place) {
  const Length least = place.pack.length("apron.upstand");
  if (place.face.kind == job::FaceKind::skew) return least;
  const auto joint = joint_above(place, least * place.frame.steepness);
  return joint ? *joint / place.frame.steepness : least;
}

// One piece from x = `low` to `high` along the foot line; a stack's corners stand at 0 and `run`.
geom::Net net_of(const Sizes& s, Length low, Length high, Length run, Angle pitch, Angle fold, bool welded) {
  const bool beyond_left = low < -tolerance::kGrid;
  const bool beyond_right = high > run + tolerance::kGrid;
  const bool turned_left = beyond_left && !s.ends.left.empty();
  const bool turned_right = beyond_right && !s.ends.right.empty();
  const bool ear_left = beyond_left && !turned_left;
  const bool ear_right = beyond_right && !turned_right;
  const Length left = beyond_left ? Length{} : low;
  const Length right = beyond_right ? run : high;
  const Length foot = s.square;
  const Length top = foot + s.upstand;
  const Length edge = top + s.turn_in;
  const auto at = [&](Length x, Length y) { return grid_point(x - low, y); };
  geom::Net net;
  const auto add = [&](GridPoint p, EdgeRole role) {
    net.outline.push_back(p);
    net.roles.push_back(role);
  };
  add(at(low, Length{}), EdgeRole::tail);
  const Length aside = s.ends.aside;
  add(at(high, Length{}), turned_right ? EdgeRole::side : EdgeRole::lap);
  if (turned_right) {
    if (s.ends.welded) {
      add(at(high, foot - aside), EdgeRole::plain);
      add(at(right, foot), EdgeRole::plain);
      add(at(high, foot + aside), EdgeRole::side);
    }
    add(at(high, top), EdgeRole::top);
  } else if (ear_right && !welded) {
    add(at(high, top), EdgeRole::top);
  } else {
    add(at(high, foot), ear_right ? EdgeRole::plain : EdgeRole::lap);
    if (ear_right) add(at(right, foot), EdgeRole::plain);
  }
  add(at(right, top), EdgeRole::lap);
  add(at(right, edge), EdgeRole::turn_in);
  add(at(left, edge), EdgeRole::lap);
  add(at(left, top), !beyond_left ? EdgeRole::lap : ear_left && welded ? EdgeRole::plain : EdgeRole::top);
  if (turned_left) {
    add(at(low, top), EdgeRole::side);
    if (s.ends.welded) {
      add(at(low, foot + aside), EdgeRole::plain);
      add(at(left, foot), EdgeRole::plain);
      add(at(low, foot - aside), EdgeRole::side);
    }
  } else if (ear_left && !welded) {
    add(at(low, top), EdgeRole::lap);
  } else {
    if (ear_left) add(at(left, foot), EdgeRole::plain);
    add(at(low, foot), EdgeRole::lap);
  }
  net.folds.push_back({at(left, foot), at(right, foot), fold, true});
  net.folds.push_back({at(left, top), at(right, top), Angle::degrees(90), false});
  const auto turn_end = [&](Length corner, Length end) {
    net.folds.push_back({at(corner, Length{}), at(corner, foot), Angle::degrees(90), true});
    net.folds.push_back({at(corner, foot), at(corner, top), Angle::degrees(90), true});
    if (!s.ends.welded) net.cuts.push_back({at(corner, foot), at(end, foot), true});
  };
  if (turned_left) turn_end(left, low);
  if (turned_right) turn_end(right, high);
  if (welded) return net;
  // Beyond the corner the sheet has to reach both the roof beside the stack and the stack's side: it is
  // bossed along the line in which the two meet.
  const Length reach = min(s.past, s.upstand / tan(pitch));
  const Length rise = min(s.upstand, reach * tan(pitch));
  if (ear_left) {
    net.folds.push_back({at(left, foot), at(left, top), Angle::degrees(90), false});
    net.cuts.push_back({at(left, foot), at(left - reach, foot + rise), true});
  }
  if (ear_right) {
    net.folds.push_back({at(right, foot), at(right, top), Angle::degrees(90), false});
    net.cuts.push_back({at(right, foot), at(right + reach, foot + rise), true});
  }
  return net;
}

std::vector<job::Figure> figures_of(const Place& place, const Sizes& s, Length run) {
  const practice::Pack& pack = place.pack;
  std::vector<job::Figure> out;
  const job::SetOut& set_out = place.layout.set_out;
  const bool double_lap = is_double_lap(place.slope.covering.kind);
  Why cover("cover", double_lap ? "max(least, G + H)" : "least", "mm");
  cover.rule("least", cover_rule(place));
  if (double_lap) cover.set_out("G", set_out.gauge).set_out("H", set_out.headlap);
  out.push_back(cover.gives(s.cover));
  if (s.square < s.cover) {
    out.push_back(Why("cover_square", "cover * k", "mm")
                      .term("cover", s.cover.in_mm(), "mm", "figure cover")
                      .term("k", s.square / s.cover, "", "bearing of the face")
                      .gives(s.square));
  }
  out.push_back(Why("upstand", "max(least, joint)", "mm")
                    .rule("least", pack.rule("apron.upstand"))
                    .term("joint", s.upstand.in_mm(), "mm", "bed joint that it turns into")
                    .gives(s.upstand));
  out.push_back(
      Why("girth", "cover + upstand + t", "mm")
          .term("cover", s.square.in_mm(), "mm", s.square < s.cover ? "figure cover_square" : "figure cover")
          .term("upstand", s.upstand.in_mm(), "mm", "figure upstand")
          .rule("t", pack.rule("step.turn_in"))
          .gives(s.square + s.upstand + s.turn_in));
  const auto n = static_cast<double>(s.count);
  const Length turned = s.ends.at_left() + s.ends.at_right();
  Why length("length",
             turned > Length{} ? "(run + 2 * past + turned + (n - 1) * lap) / n"
                               : "(run + 2 * past + (n - 1) * lap) / n",
             "mm");
  if (turned > Length{}) length.term("turned", turned.in_mm(), "mm", "ends turned up the walls beside it");
  length.term("run", run.in_mm(), "mm", "survey")
      .term("past", s.past.in_mm(), "mm", s.past > Length{} ? "rule apron.past" : "no corner here")
      .term("n", n, "", "figure pieces")
      .rule("lap", pack.rule("flashing.lap_along_wall"));
  Why pieces("pieces", s.count == 1 ? "ceil(all / most)" : "ceil((all - lap) / (most - lap))", "");
  pieces.term("all", (run + s.past * 2.0 + turned).in_mm(), "mm", "run and what reaches past it")
      .rule("most", practice::longest_flashing(practice::flashing_code(place.junction, pack), pack));
  if (s.count > 1) pieces.rule("lap", pack.rule("flashing.lap_along_wall"));
  out.push_back(pieces.gives(n));
  out.push_back(length.gives(s.length));
  out.push_back(Why("fold", "angle", "deg")
                    .term("angle", place.frame.fold.in_degrees(), "deg", "the two planes")
                    .gives(place.frame.fold.in_degrees()));
  if (s.past > Length{} && place.junction.corners != job::Corners::welded) {
    out.push_back(Why("stretch", "90 - pitch", "deg")
                      .survey("pitch", place.slope.pitch.value)
                      .gives(90.0 - place.slope.pitch.value.in_degrees()));
  }
  if (s.ends.any()) {
    for (job::Figure& f : turned_end_figures(place, s.ends)) out.push_back(std::move(f));
  }
  const job::Covering& c = place.slope.covering;
  if (c.kind == job::CoveringKind::profiled_tile && c.roll_pitch && c.roll_depth) {
    const double slope = 3.141592653589793 * (*c.roll_depth / *c.roll_pitch);
    out.push_back(Why("developed", "length * sqrt(1 + (pi * d / p) * (pi * d / p) / 2)", "mm")
                      .term("length", s.length.in_mm(), "mm", "figure length")
                      .term("pi", 3.141592653589793, "", "circle")
                      .survey("d", *c.roll_depth)
                      .survey("p", *c.roll_pitch)
                      .gives(s.length * square_root(1.0 + slope * slope / 2.0)));
  }
  return out;
}

// The first course whose units are laid over what reaches past a stack's front.
std::int64_t first_course_above(const Place& place) {
  std::int64_t course = 0;
  for (const job::Course& c : place.layout.courses) {
    if (c.tail >= place.face.from.s - tolerance::kGrid) break;
    ++course;
  }
  return course;
}

Result<void> plan(const Place& place, job::JunctionPlan& plan) {
  const practice::Pack& pack = place.pack;
  const job::SetOut& set_out = place.layout.set_out;
  const std::int64_t code = practice::flashing_code(place.junction, pack);
  const practice::Rule& longest_rule = practice::longest_flashing(code, pack);
  const Length longest = Length::mm(longest_rule.value);
  const Length run = place.frame.length;
  Sizes s;
  s.cover = Length::mm(cover_rule(place).value);
  if (is_double_lap(place.slope.covering.kind)) s.cover = max(s.cover, set_out.gauge + set_out.headlap);
  s.square = s.cover * std::abs(place.frame.away.y);
  s.upstand = upstand_of(place);
  s.turn_in = pack.length("step.turn_in");
  s.past = place.face.kind == job::FaceKind::front ? pack.length("apron.past") : Length{};
  s.lap = pack.length("flashing.lap_along_wall");
  s.ends = turned_ends(place);
  const Length all = run + s.past * 2.0 + s.ends.at_left() + s.ends.at_right();
  if (longest <= s.lap) {
    plan.findings.push_back({Level::wrong,
                             "cover.no_room_for_lap",
                             {{"longest", longest.in_mm(), "mm"}, {"lap", s.lap.in_mm(), "mm"}},
                             "",
                             longest.in_mm(),
                             s.lap.in_mm(),
                             longest_rule.source,
                             place.where()});
    return {};
  }
  s.count = all <= longest + tolerance::kNoise ? 1 : whole_up((all - s.lap) / (longest - s.lap));
  s.length = (all + s.lap * static_cast<double>(s.count - 1)) / static_cast<double>(s.count);
  const Length girth = s.square + s.upstand + s.turn_in;
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
  const bool welded = s.past > Length{} && place.junction.corners == job::Corners::welded;
  const Length room = place.face.from.s;
  if (place.face.kind == job::FaceKind::front && room < s.cover) {
    plan.findings.push_back({Level::doubt,
                             "stack.at_the_eaves",
                             {{"room", room.in_mm(), "mm"}, {"cover", s.cover.in_mm(), "mm"}},
                             "",
                             room.in_mm(),
                             s.cover.in_mm(),
                             "geometry",
                             place.where()});
  }
  if (place.face.kind == job::FaceKind::front) say_front(place, s.cover, plan.findings);
  const std::size_t first = plan.pieces.size();
  const bool on_stack = place.face.kind == job::FaceKind::front;
  say_turned_ends(place, s.ends, plan);
  if (s.ends.any() && s.ends.welded) say_welding(place, plan);
  // An end that turns up a wall has to be there before that wall's flashing.
  const auto courses = static_cast<std::int64_t>(place.layout.courses.size());
  for (std::int64_t i = 0; i < s.count; ++i) {
    const Length low = (s.length - s.lap) * static_cast<double>(i) - s.past - s.ends.at_left();
    const geom::Net net = for_face(
        net_of(s, low, low + s.length, run, place.slope.pitch.value, place.frame.fold, welded), place.face);
    std::size_t index = first;
    while (index < plan.pieces.size() && !geom::same_net(plan.pieces[index].net, net)) ++index;
    if (index == plan.pieces.size()) {
      job::Piece piece = lead_piece("apron", place, net, {to_grid(s.length) / 2, to_grid(s.square) / 2});
      piece.length = s.length;
      piece.width = *strip;
      piece.code = code;
      piece.figures = figures_of(place, s, run);
      job::Figure width =
          Why("width", "strip", "mm").term("strip", strip->in_mm(), "mm", "next stocked strip").gives(*strip);
      width.source = pack.strip_widths_source();
      width.standing = pack.strip_widths_standing();
      piece.figures.push_back(std::move(width));
      weigh(piece, pack);
      plan.pieces.push_back(std::move(piece));
    }
    job::Piece& piece = plan.pieces[index];
    piece.placements.push_back(
        {-2, on_roof(place, low, s.length, s.square, finished_face(place.slope.covering))});
    piece.count += 1;
    job::WorkStep work;
    work.slope = place.slope.name;
    work.junction = place.junction.name;
    work.step = i == 0 ? (on_stack ? "work.apron_front" : "work.apron_top") : "work.apron_next";
    work.params = {{"cover", s.cover.in_mm(), "mm"},
                   {"upstand", s.upstand.in_mm(), "mm"},
                   {"turn_in", s.turn_in.in_mm(), "mm"},
                   {"past", s.past.in_mm(), "mm"},
                   {"lap", s.lap.in_mm(), "mm"},
                   {"clips", clip_spacing(place).value, "mm"},
                   {"corners", welded ? "corner.weld" : "corner.boss", "key"}};
    if (on_stack) {
      plan.work_before_course.push_back(
          {first_course_above(place), std::move(work), static_cast<std::int64_t>(index)});
    } else if (s.ends.any()) {
      const auto piece_index = static_cast<std::int64_t>(index);
      plan.work_before_course.push_back({courses, std::move(work), piece_index});
      if (i == 0 && !s.ends.left.empty())
        plan.work_before_course.push_back({courses, turn_end_step(place, s.ends, false), piece_index});
      if (i + 1 == s.count && !s.ends.right.empty())
        plan.work_before_course.push_back({courses, turn_end_step(place, s.ends, true), piece_index});
    } else {
      plan.work_after_courses.push_back(std::move(work));
      plan.piece_of_work.push_back(static_cast<std::int64_t>(index));
    }
  }
  if (welded) {
    for (const bool right : {false, true}) {
      const geom::Vec3 corner =
          place.frame.foot + (right ? run.in_mm() : 0.0) * place.frame.along +
          up_the_face(place, finished_face(place.slope.covering)).in_mm() * place.frame.up;
      add_corner(place, apron_corner(place, corner, s.past, s.upstand, right), right, code,
                 first_course_above(place), plan);
    }
    say_welding(place, plan);
  }
  return {};
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& apron_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
