#include "parts.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/trig.h>
#include <lapwright/job/face.h>
#include <lapwright/job/facts.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace lapwright::estimate {

namespace {

using practice::Why;

double value_of(const job::Piece& piece, std::string_view name) {
  const job::Figure* figure = figure_of(piece, name);
  return figure == nullptr ? 0 : figure->value;
}

double count_of(const job::Piece& piece) {
  return static_cast<double>(piece.count);
}

bool stepped(const job::Piece& piece) {
  return piece.kind == "step-flashing" || piece.kind == "step-and-cover";
}
// Turned into one straight joint or chase along its whole length.
bool straight_turn_in(const job::Piece& piece) {
  return piece.kind == "cover-flashing" || piece.kind == "apron";
}

// Masonry that has no bed joints to rake out, so that a chase is cut.
bool is_chased(const Sources& sources, const job::Piece& piece) {
  for (const job::Slope& slope : sources.survey.slopes) {
    for (const job::Junction& junction : slope.junctions) {
      if (junction.name == piece.junction && (slope.name == piece.slope || junction.across == piece.slope)) {
        return junction.wall.kind != job::WallKind::brick;
      }
    }
  }
  return false;
}

struct Joints {
  double raked = 0;   // mm of bed joint raked out
  double chased = 0;  // mm of chase cut
};

Joints joints_of(const Sources& sources) {
  Joints out;
  for (const job::Piece* at : sources.pieces) {
    const job::Piece& piece = *at;
    if (stepped(piece)) {
      const job::Slope* slope = slope_named(sources.survey, piece.slope);
      if (slope == nullptr) continue;
      // The turn-ins of steps lie level: together as long as the run is on plan.
      out.raked += value_of(piece, "run") * cos_deg(slope->pitch.value.in_degrees()) * count_of(piece);
    } else if (straight_turn_in(piece)) {
      (is_chased(sources, piece) ? out.chased : out.raked) += piece.length.in_mm() * count_of(piece);
    }
  }
  return out;
}

void add_wedges_and_clips(const Sources& sources, Lines& lines) {
  const practice::Pack& pack = sources.pack;
  const practice::Rule& spacing = pack.rule("wedge.spacing");
  const practice::Rule& least = pack.rule("wedge.least_a_piece");
  const practice::Rule& spare = pack.rule("waste.fixings");
  const practice::Rule& clip =
      pack.rule(job::is_exposed(sources.survey.exposure) ? "clip.spacing_exposed" : "clip.spacing");
  double steps = 0;
  double along = 0;
  double clips = 0;
  for (const job::Piece* at : sources.pieces) {
    const job::Piece& piece = *at;
    if (stepped(piece)) steps += std::max(value_of(piece, "steps"), least.value) * count_of(piece);
    if (straight_turn_in(piece)) {
      const auto n = static_cast<double>(whole_up(piece.length.in_mm() / spacing.value));
      along += std::max(n, least.value) * count_of(piece);
    }
    if (figure_of(piece, "clips") != nullptr) {
      clips += value_of(piece, "clips") * count_of(piece);
    } else if (straight_turn_in(piece)) {
      clips += static_cast<double>(whole_up(piece.length.in_mm() / clip.value)) * count_of(piece);
    }
  }
  const auto with_spare = [&](double n) { return static_cast<double>(whole_up(n * (1 + spare.value))); };
  lines.add("fixings", "",
            Why("fixings.wedges", "ceil((s + p) * (1 + w))", "")
                .decided_by(spacing)
                .term("s", steps, "", "steps")
                .term("p", along, "", "wedges along straight pieces")
                .rule("w", spare)
                .gives(with_spare(steps + along)),
            {{"spacing", spacing.value, "mm"}, {"least", least.value, ""}});
  lines.add("fixings", "",
            Why("fixings.clips", "ceil(n * (1 + w))", "")
                .decided_by(clip)
                .term("n", clips, "", "clips along free edges")
                .rule("w", spare)
                .gives(with_spare(clips)),
            {{"spacing", clip.value, "mm"}, {"width", pack.number("clip.width"), "mm"}});
}

// Lead held by nails at its head: two to a soaker that is not hooked, and a row of them across what lies down
// a slope.
void add_lead_nails(const Sources& sources, Lines& lines) {
  const practice::Pack& pack = sources.pack;
  const practice::Rule& spacing = pack.rule("nail.lead_spacing");
  const practice::Rule& a_soaker = pack.rule("nail.a_soaker");
  const practice::Rule& spare = pack.rule("waste.nails");
  double soakers = 0;
  double across = 0;
  for (const job::Piece* at : sources.pieces) {
    const job::Piece& piece = *at;
    const bool soaker = piece.kind == "soaker" || piece.kind == "mitred-soaker";
    if (soaker && figure_of(piece, "hook") == nullptr) soakers += count_of(piece);
    if (piece.kind == "valley" || piece.kind == "pipe-slate" || piece.kind == "secret-gutter") {
      across += static_cast<double>(whole_up(piece.width.in_mm() / spacing.value) + 1) * count_of(piece);
    }
  }
  lines.add(
      "fixings", "",
      Why("fixings.lead_nails", "ceil((n * k + r) * (1 + w))", "")
          .term("n", soakers, "", kFromPieces)
          .rule("k", a_soaker)
          .term("r", across, "", "nails across heads")
          .rule("w", spare)
          .gives(static_cast<double>(whole_up((soakers * a_soaker.value + across) * (1 + spare.value)))),
      {{"length", pack.number("nail.lead_length"), "mm"},
       {"diameter", pack.number("nail.lead_diameter"), "mm"},
       {"spacing", spacing.value, "mm"}});
}

void add_timber(const Sources& sources, Lines& lines) {
  const practice::Rule& spare = sources.pack.rule("waste.timber");
  double gutters = 0;
  double valleys = 0;
  double area = 0;  // mm²
  std::set<std::pair<std::string, std::string>> seen;
  for (const job::Piece* at : sources.pieces) {
    const job::Piece& piece = *at;
    const double length = piece.length.in_mm() * count_of(piece);
    if (piece.kind == "back-gutter") {
      gutters += length;
      area += length * value_of(piece, "sole");
    }
    if (piece.kind == "secret-gutter") area += length * value_of(piece, "sole");
    if (piece.kind == "valley" && seen.insert({piece.slope, piece.junction}).second) {
      valleys += value_of(piece, "run");
      area += 2 * value_of(piece, "run") * value_of(piece, "board");
    }
  }
  lines.add("timber", "",
            Why("timber.tilting_fillet", "(b + 2 * v) / 1000 * (1 + w)", "m")
                .term("b", gutters, "mm", "back gutters")
                .term("v", valleys, "mm", "valleys")
                .rule("w", spare)
                .gives((gutters + 2 * valleys) / 1000 * (1 + spare.value)));
  lines.add("timber", "",
            Why("timber.boards", "A / 1000000 * (1 + w)", "m2")
                .term("A", area, "mm2", "soles and valley boards")
                .rule("w", spare)
                .gives(area / 1000000 * (1 + spare.value)),
            {{"thickness", sources.pack.number("valley.board"), "mm"}});
}

void add_underlay(const Sources& sources, Lines& lines) {
  double length = 0;
  const auto take = [&](const job::Slope& slope, const job::Junction& junction) {
    for (const job::Face& face : job::faces_of(slope, junction)) {
      if (face.kind == job::FaceKind::round) continue;
      length += job::frame_of(face, slope.pitch.value).length.in_mm();
    }
  };
  for (const job::Slope& slope : sources.survey.slopes) {
    for (const job::Junction& junction : slope.junctions) take(slope, junction);
    for (const job::Junction& junction : job::parts_from_across(sources.survey, slope)) take(slope, junction);
  }
  const practice::Rule& spare = sources.pack.rule("waste.underlay");
  lines.add("timber", "",
            Why("timber.underlay_upturn", "l / 1000 * (1 + w)", "m")
                .term("l", length, "mm", "faces")
                .rule("w", spare)
                .gives(length / 1000 * (1 + spare.value)),
            {{"upturn", sources.pack.number("underlay.upturn"), "mm"}});
}

void add_joints(const Sources& sources, Lines& lines) {
  const practice::Pack& pack = sources.pack;
  const Joints joints = joints_of(sources);
  lines.add("finishing", "",
            Why("finishing.rake_out", "s / 1000", "m")
                .term("s", joints.raked, "mm", "turn-ins")
                .gives(joints.raked / 1000));
  lines.add("finishing", "",
            Why("finishing.chase", "c / 1000", "m")
                .term("c", joints.chased, "mm", "turn-ins")
                .gives(joints.chased / 1000),
            {{"depth", pack.number("chase.depth"), "mm"}, {"width", pack.number("groove.width"), "mm"}});
  const practice::Rule& spare = pack.rule("waste.sealant");
  const practice::Rule& groove = pack.rule("groove.width");
  const practice::Rule& depth = pack.rule("step.turn_in");
  const practice::Rule& cartridge = pack.rule("sealant.cartridge");
  const double metres = (joints.raked + joints.chased) / 1000;
  const double ml = metres * groove.value * depth.value * (1 + spare.value);
  lines.add("finishing", "",
            Why("finishing.sealant", "ceil(m * g * d * (1 + w) / c)", "")
                .decided_by(cartridge)
                .term("m", metres, "m", "turn-ins")
                .rule("g", groove)
                .rule("d", depth)
                .rule("w", spare)
                .rule("c", cartridge)
                .gives(static_cast<double>(whole_up(ml / cartridge.value))),
            {{"litres", ml / 1000, "l"}, {"cartridge", cartridge.value, "ml"}});
}

void add_oil(const Sources& sources, Lines& lines) {
  double area = 0;
  for (const job::Piece* at : sources.pieces) {
    const job::Piece& piece = *at;
    const bool hidden = piece.kind == "soaker" || piece.kind == "mitred-soaker";
    if (piece.code && !hidden) area += piece.area.in_mm2() * count_of(piece);
  }
  const practice::Rule& cover = sources.pack.rule("oil.cover");
  const practice::Rule& spare = sources.pack.rule("waste.oil");
  lines.add("finishing", "",
            Why("finishing.oil", "A / 1000000 / r * (1 + w)", "l")
                .term("A", area, "mm2", kFromPieces)
                .rule("r", cover)
                .rule("w", spare)
                .gives(area / 1000000 / cover.value * (1 + spare.value)));
}

}  // namespace

void add_lead(const Sources& sources, Lines& lines) {
  add_wedges_and_clips(sources, lines);
  add_lead_nails(sources, lines);
  add_timber(sources, lines);
  add_underlay(sources, lines);
  add_joints(sources, lines);
  add_oil(sources, lines);
}

}  // namespace lapwright::estimate
