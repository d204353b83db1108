#include "parts.h"

#include <lapwright/base/numbers.h>
#include <lapwright/estimate/strips.h>

#include <algorithm>
#include <map>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace lapwright::estimate {

namespace {

using practice::Why;

std::string code_term(std::int64_t code) {
  return "lead code " + std::to_string(code);
}

// "2 × 6 m + 1 × 3 m"
std::string rolls_text(const std::vector<RollCount>& rolls) {
  std::string out;
  for (const RollCount& roll : rolls) {
    out += (out.empty() ? "" : " + ") + std::to_string(roll.count) + " × " + trimmed(roll.length.in_m(), 2) +
           " m";
  }
  return out;
}

double bought(const std::vector<RollCount>& rolls, Length length) {
  for (const RollCount& roll : rolls) {
    if (roll.length == length) return static_cast<double>(roll.count);
  }
  return 0;
}

// What the cutting list had to leave out must be got all the same: it is asked for by weight.
void add_no_roll(const Sources& sources, Lines& lines) {
  struct Left {
    std::int64_t pieces = 0;
    double mm2 = 0;
  };
  std::map<std::int64_t, Left> left;  // by code
  for (const job::CutRefusal& refusal : sources.plan.cutting->refused) {
    const auto piece = std::find_if(sources.pieces.begin(), sources.pieces.end(),
                                    [&](const job::Piece* one) { return one->mark == refusal.mark; });
    if (piece == sources.pieces.end() || !(*piece)->code || !sources.pack.has_lead(*(*piece)->code)) continue;
    Left& of = left[*(*piece)->code];
    of.pieces += refusal.count;
    of.mm2 += (*piece)->area.in_mm2() * static_cast<double>(refusal.count);
  }
  for (const auto& [code, of] : left) {
    const double kg_per_m2 = sources.pack.lead(code).kg_per_m2;
    lines.add("lead", "",
              Why("lead.no_roll", "A * k / 1000000", "kg")
                  .term("A", of.mm2, "mm2", kFromPieces)
                  .term("k", kg_per_m2, "kg/m2", code_term(code))
                  .gives(of.mm2 * kg_per_m2 / 1000000),
              {{"code", static_cast<double>(code), ""}, {"n", static_cast<double>(of.pieces), ""}});
  }
}

}  // namespace

void add_strips(const Sources& sources, Lines& lines) {
  const practice::Pack& pack = sources.pack;
  const practice::Rule& long_roll = pack.rule("roll.length");
  const practice::Rule& short_roll = pack.rule("roll.length_short");
  std::map<std::int64_t, double> area;                                          // mm², by code
  std::map<std::pair<std::int64_t, std::int64_t>, std::vector<Length>> strips;  // by code and width in µm
  double metal = 0;
  for (const job::Piece* at : sources.pieces) {
    const job::Piece& piece = *at;
    const auto n = static_cast<std::size_t>(std::max<std::int64_t>(piece.count, 0));
    if (!piece.code) {
      metal += piece.mass.in_kg() * static_cast<double>(n);
      continue;
    }
    area[*piece.code] += piece.area.in_mm2() * static_cast<double>(n);
    // A piece wider than any strip is cut from sheet; across is then along, if that fits.
    Length along = piece.length;
    std::optional<Length> width = pack.next_strip_width(piece.width);
    if (!width) {
      width = pack.next_strip_width(piece.length);
      along = piece.width;
    }
    if (!width) continue;
    std::vector<Length>& pieces = strips[{*piece.code, whole_up(width->in_mm() * 1000)}];
    pieces.insert(pieces.end(), n, along);
  }
  for (const auto& [code, mm2] : area) {
    if (!pack.has_lead(code)) continue;
    const double kg_per_m2 = pack.lead(code).kg_per_m2;
    lines.add("lead", "",
              Why("lead.in_place", "A * k / 1000000", "kg")
                  .term("A", mm2, "mm2", kFromPieces)
                  .term("k", kg_per_m2, "kg/m2", code_term(code))
                  .gives(mm2 * kg_per_m2 / 1000000),
              {{"code", static_cast<double>(code), ""}});
  }
  lines.add("lead", "", Why("lead.other_metal", "m", "kg").term("m", metal, "kg", kFromPieces).gives(metal));
  if (sources.plan.cutting) return;  // which says what to buy
  for (const auto& [key, pieces] : strips) {
    const auto [code, width_um] = key;
    if (!pack.has_lead(code)) continue;
    const Length width = Length::um(width_um);
    const std::vector<RollCount> rolls =
        rolls_for(pieces, {Length::mm(long_roll.value), Length::mm(short_roll.value)});
    if (rolls.empty()) continue;
    const double a = bought(rolls, Length::mm(long_roll.value));
    const bool two_lengths = short_roll.value < long_roll.value;
    const double b = two_lengths ? bought(rolls, Length::mm(short_roll.value)) : 0;
    const double metres = (a * long_roll.value + b * short_roll.value) / 1000;
    Length need;
    for (const Length piece : pieces) need += piece;
    const double kg_per_m = width.in_m() * pack.lead(code).kg_per_m2;
    lines.add("lead", "",
              Why("lead.strip", "(a * A + b * B) / 1000", "m")
                  .decided_by(long_roll)
                  .term("a", a, "", "strips cut one after the other")
                  .rule("A", long_roll)
                  .term("b", b, "", "strips cut one after the other")
                  .rule("B", short_roll)
                  .gives(metres),
              {{"code", static_cast<double>(code), ""},
               {"width", width.in_mm(), "mm"},
               {"need", need.in_m(), "m"},
               {"need_kg", need.in_m() * kg_per_m, "kg"},
               {"kg", metres * kg_per_m, "kg"},
               {"rolls", rolls_text(rolls), ""},
               {"over", left_over(rolls, pieces).in_m(), "m"},
               {"longest_kg", rolls.front().length.in_m() * kg_per_m, "kg"}});
  }
}

void add_rolls(const Sources& sources, Lines& lines) {
  struct Like {
    const job::CutRoll* roll = nullptr;
    std::int64_t count = 0;
  };
  std::vector<Like> likes;
  for (const job::CutRoll& roll : sources.plan.cutting->rolls) {
    const auto like = std::find_if(likes.begin(), likes.end(), [&](const Like& one) {
      return one.roll->code == roll.code && one.roll->width == roll.width &&
             one.roll->length == roll.length && one.roll->offcut == roll.offcut;
    });
    if (like != likes.end()) {
      like->count += roll.count;
    } else {
      likes.push_back({&roll, roll.count});
    }
  }
  add_no_roll(sources, lines);
  const practice::Rule& lift = sources.pack.rule("lift.one_person");
  for (const Like& like : likes) {
    const bool heavy = like.roll->mass.in_kg() > lift.value;
    const std::string_view item = like.roll->offcut ? "lead.from_rack"
                                  : heavy           ? "lead.roll_two_people"
                                                    : "lead.roll";
    const auto n = static_cast<double>(like.count);
    lines.add("lead", "", Why(item, "n", "").term("n", n, "", "cutting list").gives(n),
              {{"code", static_cast<double>(like.roll->code), ""},
               {"width", like.roll->width.in_mm(), "mm"},
               {"length", like.roll->length.in_m(), "m"},
               {"kg", like.roll->mass.in_kg(), "kg"},
               {"all", like.roll->mass.in_kg() * n, "kg"},
               {"price", like.roll->price, "hundredths"},
               {"lift", lift.value, "kg"}});
  }
}

}  // namespace lapwright::estimate
