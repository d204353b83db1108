#include "soaker.h"

#include "sheet.h"
#include "wall_side.h"

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
  Length leg;
  Length upstand;
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

std::optional<Section> section_of(const job::Slope& slope, const job::Junction& junction,
                                  const practice::Pack& pack, const std::string& where,
                                  job::JunctionPlan& plan) {
  const job::Covering& c = slope.covering;
  Section s;
  s.fixing = junction.head_fixing.value_or(HeadFixing::hooked);
  s.set_back = pack.length("soaker.set_back");
  s.allowance = pack.length("soaker.head_allowance");
  s.leg = practice::widest_gap(junction, pack) + max(c.width.most() / 2.0, pack.length("soaker.leg_least"));
  s.upstand = max(pack.length("soaker.upstand"), pack.length("soaker.proud") + finished_face(c));
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
  const Length nominal =
      max(pack.length("soaker.upstand"), pack.length("soaker.proud") + c.thickness.value + c.camber.value);
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

Cut cut_of(const job::SlopeLayout& layout, const WallSide& wall, const Section& s, std::size_t k) {
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
  cut.upstand_from = max(Length{}, wall.from - cut.tail);
  // The wall ends, or the slope does, before the lead: the upstand stops there, beside a hook as anywhere. A
  // strip narrower than a hand cuts is not left standing beside the hook.
  cut.upstand_to = min(cut.blank, wall.to - cut.tail);
  if (cut.upstand_to > cut.blank - tolerance::kGrid * 10.0) cut.upstand_to = cut.blank;
  if (cut.upstand_to > cut.flat && cut.upstand_to < cut.flat + tolerance::kHandCut) cut.upstand_to = cut.flat;
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
  net.folds.push_back({{up_from, leg}, {fold_to, leg}, Angle::degrees(90), true});
  if (hooked) {
    net.folds.push_back({{flat, 0}, {flat, leg}, Angle::degrees(90), false});
    if (up_to > flat) net.cuts.push_back({{flat, leg}, {up_to < blank ? up_to : blank, leg}});
  }
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

std::vector<job::Figure> section_figures(const job::Slope& slope, const job::Junction& junction,
                                         const Section& s, const practice::Pack& pack) {
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
  out.push_back(Why("upstand", "max(U, P + t + c)", "mm")
                    .rule("U", pack.rule("soaker.upstand"))
                    .rule("P", pack.rule("soaker.proud"))
                    .survey("t", c.thickness.most())
                    .survey("c", c.camber.most())
                    .gives(s.upstand));
  out.push_back(Why("width", "leg + upstand", "mm")
                    .term("leg", s.leg.in_mm(), "mm", "figure leg")
                    .term("upstand", s.upstand.in_mm(), "mm", "figure upstand")
                    .gives(s.leg + s.upstand));
  out.push_back(Why("proud", "upstand - t - c", "mm")
                    .term("upstand", s.upstand.in_mm(), "mm", "figure upstand")
                    .survey("t", c.thickness.most())
                    .survey("c", c.camber.most())
                    .decided_by(pack.rule("soaker.proud"))
                    .gives(s.upstand - finished_face(c)));
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

void plan_soakers(const job::Slope& slope, const job::Junction& junction, const job::SlopeLayout& layout,
                  const practice::Pack& pack, job::JunctionPlan& plan) {
  const std::string where = slope.name + " / " + junction.name;
  const WallSide wall = wall_side(slope, junction);
  const auto section = section_of(slope, junction, pack, where, plan);
  plan.soaker_of_course.assign(layout.courses.size(), -1);
  if (!section) return;
  const std::size_t first_piece = plan.pieces.size();
  for (std::size_t k = 0; k < layout.courses.size(); ++k) {
    const job::Course& course = layout.courses[k];
    const bool beside_wall = course.tail + section->set_back < wall.to - tolerance::kGrid &&
                             wall.from < course.tail + course.margin - tolerance::kGrid;
    if (!beside_wall) continue;
    const Cut cut = cut_of(layout, wall, *section, k);
    if (to_grid(cut.upstand_to) <= to_grid(cut.upstand_from)) continue;
    const geom::Net left_net = net_of(*section, cut);
    const geom::Net net = for_hand(left_net, junction.hand);
    std::size_t index = first_piece;
    while (index < plan.pieces.size() && !geom::same_net(plan.pieces[index].net, net)) ++index;
    if (index == plan.pieces.size()) {
      const GridPoint on_leg = {to_grid(cut.flat) / 2, to_grid(section->leg) / 2};
      job::Piece piece =
          lead_piece("soaker", slope, junction, net, for_hand(on_leg, to_grid(cut.blank), junction.hand));
      piece.length = cut.blank;
      piece.width = section->leg + section->upstand;
      piece.code = section->code;
      piece.figures.push_back(length_figure(layout, *section, pack, k, cut));
      for (job::Figure& f : section_figures(slope, junction, *section, pack)) {
        if (f.name == "hook" && cut.cut_at_top) continue;
        piece.figures.push_back(std::move(f));
      }
      weigh(piece, pack);
      plan.pieces.push_back(std::move(piece));
    }
    job::Piece& piece = plan.pieces[index];
    keep_least_lap(piece, lap_figure(layout, *section, pack, k));
    piece.placements.push_back(
        {static_cast<std::int64_t>(k), on_roof(wall, cut.tail, cut.blank, section->leg)});
    piece.count += 1;
    plan.soaker_of_course[k] = static_cast<std::int64_t>(index);
  }
  judge_laps(plan, pack, where, plan.findings);
}

}  // namespace lapwright::pieces
