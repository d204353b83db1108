#include "soaker.h"

#include "on_face.h"
#include "sheet.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/practice/figure.h>

#include <optional>
#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::Grid;
using geom::GridPoint;
using geom::to_grid;
using job::HeadFixing;
using job::Level;
using practice::Why;

// What is the same for every soaker of a junction.
struct Section {
  HeadFixing fixing = HeadFixing::hooked;
  Length set_back;
  Length allowance;
  Length leg;      // along the course
  Length upstand;  // up the face
  // On a skew face the tail and the head run aslant: how far the leg lies square to the foot line, and how
  // much further along it a point of the free edge is than the point of the face on the same course.
  Length square_leg;
  Length drift;
  double climb = 1;  // up the slope for 1 along the foot line
  Angle fold = Angle::degrees(90);
  double inward = 0;  // square to the foot line, towards the roof, for 1 up the slope
  std::int64_t code = 3;
};

// One soaker's sizes along the slope.
struct Cut {
  Length tail;          // of the piece: set back from the tail of the unit that covers it
  Length flat;          // on the roof, from the tail to the hook's fold, or to the end
  Length blank;         // with the hook
  Length upstand_from;  // the wall may begin above the tail or end below the head
  Length upstand_to;
  bool cut_at_top = false;
};

// How high the upstand has to be so that `proud` of it, square to the roof, is left above the units.
Length upstand_for(const Place& place, Length units) {
  return max(place.pack.length("soaker.upstand"),
             up_the_face(place, place.pack.length("soaker.proud") + units));
}

std::optional<Section> section_of(const Place& place, const std::string& where, job::JunctionPlan& plan) {
  const job::Slope& slope = place.slope;
  const job::Junction& junction = place.junction;
  const practice::Pack& pack = place.pack;
  const job::Covering& c = slope.covering;
  Section s;
  s.fixing = junction.head_fixing.value_or(HeadFixing::hooked);
  s.set_back = pack.length("soaker.set_back");
  s.allowance = pack.length("soaker.head_allowance");
  s.leg = practice::widest_gap(junction, pack) + max(c.width.most() / 2.0, pack.length("soaker.leg_least"));
  s.upstand = upstand_for(place, finished_face(c));
  const job::FaceFrame& frame = place.frame;
  const double side = place.face.hand == job::Hand::left ? 1 : -1;
  s.square_leg = s.leg * (side * frame.away.x);
  s.drift = s.leg * (side * frame.along.x);
  s.climb = frame.along.y;
  s.inward = frame.away.y;
  s.fold = frame.fold;
  s.code = junction.soaker_code.value_or(static_cast<std::int64_t>(pack.number("soaker.code")));
  if (s.fixing == HeadFixing::flush && is_centre_nailed(c)) {
    plan.findings.push_back({Level::wrong,
                             "soaker.flush_on_centre_nailed",
                             {},
                             "",
                             std::nullopt,
                             std::nullopt,
                             "common practice, no source",
                             where});
    return std::nullopt;
  }
  const practice::Rule& hook_least = pack.rule("soaker.hook_least");
  if (s.fixing == HeadFixing::hooked && s.allowance + s.set_back < Length::mm(hook_least.value)) {
    plan.findings.push_back(
        {Level::doubt,
         "soaker.hook_short",
         {{"hook", (s.allowance + s.set_back).in_mm(), "mm"}, {"least", hook_least.value, "mm"}},
         "",
         (s.allowance + s.set_back).in_mm(),
         hook_least.value,
         hook_least.source,
         where});
  }
  const practice::Rule& proud = pack.rule("soaker.proud");
  if (proud.overridden && proud.value < proud.pack_value) {
    plan.findings.push_back({Level::doubt,
                             "soaker.proud_below_usual",
                             {{"proud", proud.value, "mm"}, {"usual", proud.pack_value, "mm"}},
                             "",
                             proud.value,
                             proud.pack_value,
                             "common practice, no source",
                             where});
  }
  const Length widest = practice::widest_gap(junction, pack);
  Length narrowest = widest;
  for (const job::GapAt& gap : junction.gaps) narrowest = min(narrowest, gap.width.value);
  if (widest - narrowest > tolerance::kHandCut && junction.gaps.size() > 1) {
    plan.findings.push_back({Level::note,
                             "soaker.leg_for_widest_gap",
                             {{"widest", widest.in_mm(), "mm"}, {"narrowest", narrowest.in_mm(), "mm"}},
                             "",
                             widest.in_mm(),
                             narrowest.in_mm(),
                             "geometry",
                             where});
  }
  const Length nominal = upstand_for(place, c.thickness.value + c.camber.value);
  if (s.upstand > nominal + tolerance::kNoise) {
    plan.findings.push_back({Level::note,
                             "soaker.upstand_for_thickest",
                             {{"nominal", nominal.in_mm(), "mm"}, {"thickest", s.upstand.in_mm(), "mm"}},
                             "",
                             s.upstand.in_mm(),
                             nominal.in_mm(),
                             "geometry",
                             where});
  }
  constexpr std::int64_t kThickestUsual = 4;
  if (s.code > kThickestUsual) {
    plan.findings.push_back({Level::doubt,
                             "soaker.code_thick",
                             {{"code", static_cast<double>(s.code), ""}},
                             "",
                             static_cast<double>(s.code),
                             static_cast<double>(kThickestUsual),
                             "NHBC Standards 7.2",
                             where});
  }
  return s;
}

Cut cut_of(const job::SlopeLayout& layout, const job::Face& face, const Section& s, std::size_t k) {
  const job::Course& course = layout.courses[k];
  // From the courses' own lengths and margins, not from differences of tails: equal courses give equal
  // soakers to the last bit.
  const Length to_head =
      k == 0 ? layout.under_length : layout.courses[k - 1].length - layout.courses[k - 1].margin;
  const Length room = layout.top - course.tail;
  Cut cut;
  cut.tail = course.tail + s.set_back;
  if (to_head >= room - tolerance::kGrid) {
    cut.cut_at_top = true;
    cut.flat = room - s.set_back;
    cut.blank = cut.flat;
  } else {
    switch (s.fixing) {
      case HeadFixing::hooked:
        cut.flat = to_head - s.set_back;
        cut.blank = to_head + s.allowance;
        break;
      case HeadFixing::to_the_batten:
        cut.blank = min(to_head + s.allowance, room - s.set_back);
        cut.flat = cut.blank;
        break;
      case HeadFixing::flush:
        cut.flat = to_head - s.set_back;
        cut.blank = cut.flat;
        break;
    }
  }
  cut.upstand_from = max(Length{}, face.from.s - cut.tail);
  // The wall ends, or the slope does, before the lead: the upstand stops there, beside a hook as anywhere. A
  // strip narrower than a hand cuts is not left standing beside the hook.
  cut.upstand_to = min(cut.blank, face.to.s - cut.tail);
  if (cut.upstand_to > cut.blank - tolerance::kGrid * 10.0) cut.upstand_to = cut.blank;
  if (cut.upstand_to > cut.flat && cut.upstand_to < cut.flat + tolerance::kHandCut) cut.upstand_to = cut.flat;
  // Beside a skew face the hook turns down askew to the upstand, which ends at the head.
  if (s.climb < 1 && s.fixing == HeadFixing::hooked) cut.upstand_to = min(cut.upstand_to, cut.flat);
  return cut;
}

geom::Net net_of(const Section& s, const Cut& cut) {
  const Grid blank = to_grid(cut.blank);
  const Grid flat = to_grid(cut.flat);
  const Grid leg = to_grid(s.leg);
  const Grid top = leg + to_grid(s.upstand);
  const Grid up_from = to_grid(cut.upstand_from);
  const Grid up_to = to_grid(cut.upstand_to);
  const bool hooked = flat < blank;
  geom::Net net;
  const auto edge = [&](GridPoint from, EdgeRole role) {
    net.outline.push_back(from);
    net.roles.push_back(role);
  };
  edge({0, 0}, EdgeRole::side);
  if (hooked) edge({flat, 0}, EdgeRole::side);
  edge({blank, 0}, EdgeRole::head);
  if (up_to < blank) {
    edge({blank, leg}, EdgeRole::plain);
    if (hooked && up_to < flat) edge({flat, leg}, EdgeRole::plain);
    edge({up_to, leg}, EdgeRole::head);
  } else {
    edge({blank, leg}, EdgeRole::head);
  }
  edge({up_to, top}, EdgeRole::top);
  edge({up_from, top}, EdgeRole::tail);
  if (up_from > 0) edge({up_from, leg}, EdgeRole::plain);
  edge({0, leg}, EdgeRole::tail);
  const Grid fold_to = up_to < flat ? up_to : flat;
  net.folds.push_back({{up_from, leg}, {fold_to, leg}, s.fold, true});
  if (hooked) {
    net.folds.push_back({{flat, 0}, {flat, leg}, Angle::degrees(90), false});
    if (up_to > flat) net.cuts.push_back({{flat, leg}, {up_to < blank ? up_to : blank, leg}});
  }
  return net;
}

// The same beside a skew face: x along the foot line, the leg's tail and head level with the courses.
geom::Net skew_net_of(const Section& s, const Cut& cut) {
  const auto at_face = [&](Length up) { return geom::grid_point(up / s.climb, s.square_leg); };
  const auto at_free = [&](Length up) { return geom::grid_point(up / s.climb + s.drift, Length{}); };
  // A hook goes on up the slope from the head.
  const Length hook = cut.blank - cut.flat;
  const GridPoint over = geom::grid_point(hook * s.climb, -(hook * s.inward));
  const auto shifted = [&](GridPoint p) { return GridPoint{p.x + over.x, p.y + over.y}; };
  const Grid top = to_grid(s.square_leg + s.upstand);
  const bool hooked = hook > Length{};
  geom::Net net;
  const auto edge = [&](GridPoint from, EdgeRole role) {
    if (!net.outline.empty() && net.outline.back() == from) {
      net.roles.back() = role;
      return;
    }
    net.outline.push_back(from);
    net.roles.push_back(role);
  };
  edge(at_free(Length{}), EdgeRole::side);
  edge(at_free(cut.flat), hooked ? EdgeRole::side : EdgeRole::head);
  if (hooked) {
    edge(shifted(at_free(cut.flat)), EdgeRole::head);
    edge(shifted(at_face(cut.flat)), EdgeRole::side);
  }
  edge(at_face(cut.flat), EdgeRole::plain);
  const GridPoint up_to = at_face(cut.upstand_to);
  const GridPoint up_from = at_face(cut.upstand_from);
  edge(up_to, EdgeRole::head);
  edge({up_to.x, top}, EdgeRole::top);
  edge({up_from.x, top}, EdgeRole::tail);
  edge(up_from, EdgeRole::plain);
  edge(at_face(Length{}), EdgeRole::tail);
  if (net.outline.back() == net.outline.front()) {
    net.outline.pop_back();
    net.roles.pop_back();
  }
  net.folds.push_back({up_from, up_to, s.fold, true});
  if (hooked) net.folds.push_back({at_free(cut.flat), at_face(cut.flat), Angle::degrees(90), false});
  return net;
}

// The lap on the next soaker up, as figures know it.
std::optional<job::Figure> lap_figure(const job::SlopeLayout& layout, const Section& s,
                                      const practice::Pack& pack, std::size_t k) {
  if (k == 0 || k + 1 >= layout.courses.size()) return std::nullopt;
  const job::Course& below = layout.courses[k - 1];
  const Length next = layout.courses[k].margin;
  const bool long_head = s.fixing == HeadFixing::to_the_batten;
  Why why("lap", long_head ? "L - G + a - Gnext" : "L - G - Gnext - e", "mm");
  why.survey("L", below.length).set_out("G", below.margin).set_out("Gnext", next);
  const Length base = below.length - below.margin - next;
  if (long_head) {
    why.rule("a", pack.rule("soaker.head_allowance"));
    return why.gives(base + s.allowance);
  }
  why.rule("e", pack.rule("soaker.set_back"));
  return why.gives(base - s.set_back);
}

job::Figure length_figure(const job::SlopeLayout& layout, const Section& s, const practice::Pack& pack,
                          std::size_t k, const Cut& cut) {
  if (cut.cut_at_top) {
    return Why("length_at_top", "R - s - e", "mm")
        .survey("R", layout.top)
        .set_out("s", layout.courses[k].tail)
        .rule("e", pack.rule("soaker.set_back"))
        .gives(cut.blank);
  }
  const Length step = k == 0 ? layout.courses.front().margin : layout.courses[k - 1].margin;
  const Length unit = k == 0 ? layout.under_length + step : layout.courses[k - 1].length;
  const bool flush = s.fixing == HeadFixing::flush;
  Why why("length", flush ? "L - G - e" : "L - G + a", "mm");
  why.survey("L", unit).set_out("G", step);
  if (flush) return why.rule("e", pack.rule("soaker.set_back")).gives(cut.blank);
  const Length full = unit - step + s.allowance;
  if (cut.blank < full - tolerance::kGrid) {  // to the batten, but the top edge comes first
    return Why("length_at_top", "R - s - e", "mm")
        .survey("R", layout.top)
        .set_out("s", layout.courses[k].tail)
        .rule("e", pack.rule("soaker.set_back"))
        .gives(cut.blank);
  }
  return why.rule("a", pack.rule("soaker.head_allowance")).gives(cut.blank);
}

std::vector<job::Figure> section_figures(const Place& place, const Section& s) {
  const job::Slope& slope = place.slope;
  const job::Junction& junction = place.junction;
  const practice::Pack& pack = place.pack;
  const job::Covering& c = slope.covering;
  const Length gap = practice::widest_gap(junction, pack);
  std::vector<job::Figure> out;
  Why leg("leg", "gap + max(W / 2, least)", "mm");
  if (junction.gaps.empty()) {
    leg.term("gap", gap.in_mm(), "mm", "rule wall.gap");
  } else {
    leg.term("gap", gap.in_mm(), "mm", "survey");
  }
  leg.survey("W", c.width.most()).rule("least", pack.rule("soaker.leg_least"));
  out.push_back(leg.gives(s.leg));
  const bool square = place.frame.up.z == 1.0;  // the face stands square to the roof
  Why upstand("upstand", square ? "max(U, P + t + c)" : "max(U, (P + t + c) / k)", "mm");
  upstand.rule("U", pack.rule("soaker.upstand"))
      .rule("P", pack.rule("soaker.proud"))
      .survey("t", c.thickness.most())
      .survey("c", c.camber.most());
  if (!square) upstand.term("k", place.frame.up.z, "", "lean of the face to the roof");
  out.push_back(upstand.gives(s.upstand));
  if (s.climb < 1) {
    out.push_back(Why("leg_square", "leg * k", "mm")
                      .term("leg", s.leg.in_mm(), "mm", "figure leg")
                      .term("k", s.square_leg / s.leg, "", "bearing of the face")
                      .gives(s.square_leg));
    out.push_back(Why("fold", "angle", "deg")
                      .term("angle", s.fold.in_degrees(), "deg", "the two planes")
                      .gives(s.fold.in_degrees()));
  }
  out.push_back(Why("width", "leg + upstand", "mm")
                    .term("leg", s.square_leg.in_mm(), "mm", s.climb < 1 ? "figure leg_square" : "figure leg")
                    .term("upstand", s.upstand.in_mm(), "mm", "figure upstand")
                    .gives(s.square_leg + s.upstand));
  Why proud("proud", square ? "upstand - t - c" : "upstand * k - t - c", "mm");
  proud.term("upstand", s.upstand.in_mm(), "mm", "figure upstand");
  if (!square) proud.term("k", place.frame.up.z, "", "lean of the face to the roof");
  out.push_back(proud.survey("t", c.thickness.most())
                    .survey("c", c.camber.most())
                    .decided_by(pack.rule("soaker.proud"))
                    .gives(s.upstand * place.frame.up.z - finished_face(c)));
  out.push_back(Why("set_back", "e", "mm").rule("e", pack.rule("soaker.set_back")).gives(s.set_back));
  if (s.fixing == HeadFixing::hooked) {
    out.push_back(Why("hook", "a + e", "mm")
                      .rule("a", pack.rule("soaker.head_allowance"))
                      .rule("e", pack.rule("soaker.set_back"))
                      .gives(s.allowance + s.set_back));
  }
  return out;
}

// Keeps the smallest lap that a mark has anywhere.
void keep_least_lap(job::Piece& piece, std::optional<job::Figure> lap) {
  if (!lap) return;
  for (job::Figure& f : piece.figures) {
    if (f.name != "lap") continue;
    if (lap->value < f.value) f = std::move(*lap);
    return;
  }
  piece.figures.push_back(std::move(*lap));
}

void judge_laps(const job::JunctionPlan& plan, const practice::Pack& pack, const std::string& where,
                std::vector<job::Finding>& findings) {
  const practice::Rule& usual = pack.rule("soaker.lap_usual_least");
  const job::Figure* least = nullptr;
  for (const job::Piece& piece : plan.pieces) {
    for (const job::Figure& f : piece.figures) {
      if (f.name == "lap" && (least == nullptr || f.value < least->value)) least = &f;
    }
  }
  if (least == nullptr || least->value >= usual.value - tolerance::kPublishedRounding.in_mm()) return;
  findings.push_back({Level::doubt,
                      "soaker.lap_short",
                      {{"lap", least->value, "mm"}, {"usual", usual.value, "mm"}},
                      "",
                      least->value,
                      usual.value,
                      usual.source,
                      where});
}

}  // namespace

Length finished_face(const job::Covering& covering) {
  return covering.thickness.most() + covering.camber.most();
}

void plan_soakers(const Place& place, job::JunctionPlan& plan) {
  const job::SlopeLayout& layout = place.layout;
  const job::Face& face = place.face;
  const std::string where = place.where();
  const auto section = section_of(place, where, plan);
  plan.soaker_of_course.assign(layout.courses.size(), -1);
  if (!section) return;
  const bool skew = section->climb < 1;
  const std::size_t first_piece = plan.pieces.size();
  for (std::size_t k = 0; k < layout.courses.size(); ++k) {
    const job::Course& course = layout.courses[k];
    const bool beside_wall = course.tail + section->set_back < face.to.s - tolerance::kGrid &&
                             face.from.s < course.tail + course.margin - tolerance::kGrid;
    if (!beside_wall) continue;
    const Cut cut = cut_of(layout, face, *section, k);
    if (to_grid(cut.upstand_to) <= to_grid(cut.upstand_from)) continue;
    const geom::Net drawn = skew ? skew_net_of(*section, cut) : net_of(*section, cut);
    const geom::Box box = geom::bounds(drawn.outline);
    const Length extent = geom::to_length(box.high.x - box.low.x);
    const geom::Net net = for_face(geom::at_origin(drawn), face);
    std::size_t index = first_piece;
    while (index < plan.pieces.size() && !geom::same_net(plan.pieces[index].net, net)) ++index;
    if (index == plan.pieces.size()) {
      // The middle of the leg.
      const GridPoint on_leg = {to_grid(cut.flat / section->climb + section->drift) / 2 - box.low.x,
                                to_grid(section->square_leg) / 2 - box.low.y};
      job::Piece piece = lead_piece("soaker", place, net, for_face(on_leg, to_grid(extent), face));
      piece.length = cut.blank;
      piece.width = section->square_leg + section->upstand;
      piece.figures.push_back(length_figure(layout, *section, place.pack, k, cut));
      for (job::Figure& f : section_figures(place, *section)) {
        if (f.name == "hook" && cut.cut_at_top) continue;
        piece.figures.push_back(std::move(f));
      }
      if (place.junction.soaker_metal) {
        weigh_metal(piece, *place.pack.soaker_metal(name_of(*place.junction.soaker_metal)));
      } else {
        piece.code = section->code;
        weigh(piece, place.pack);
      }
      plan.pieces.push_back(std::move(piece));
    }
    job::Piece& piece = plan.pieces[index];
    keep_least_lap(piece, lap_figure(layout, *section, place.pack, k));
    const Length start = (cut.tail - face.from.s) / section->climb + geom::to_length(box.low.x);
    piece.placements.push_back(
        {static_cast<std::int64_t>(k),
         on_roof(place, start, extent, section->square_leg - geom::to_length(box.low.y))});
    piece.count += 1;
    plan.soaker_of_course[k] = static_cast<std::int64_t>(index);
  }
  judge_laps(plan, place.pack, where, plan.findings);
}

}  // namespace lapwright::pieces
