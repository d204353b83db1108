#include <lapwright/cutting/cut_plan.h>

#include "shapes.h"

#include <lapwright/base/numbers.h>

#include <algorithm>
#include <set>

namespace lapwright::cutting {

namespace {

const job::Piece* piece_of(const job::Plan& plan, const std::string& mark) {
  for (const job::Piece& piece : plan.pieces) {
    if (piece.mark == mark) return &piece;
  }
  return nullptr;
}

std::string where_of(const job::Piece& piece) {
  return piece.slope + (piece.junction.empty() ? "" : " / " + piece.junction) + " / " + piece.mark;
}

}  // namespace

Faults faults_of(const job::Yard& yard, const practice::Pack& pack) {
  Faults out;
  for (std::size_t i = 0; i < yard.rolls.size(); ++i) {
    const job::YardRoll& roll = yard.rolls[i];
    if (!roll.price || !pack.has_lead(roll.code)) continue;
    const double kg = pack.lead(roll.code).kg_per_m2 * roll.width.in_m() * roll.length.in_m();
    const double scrap = kg * static_cast<double>(yard.scrap_per_kg);
    if (static_cast<double>(*roll.price) > scrap) continue;
    out.push_back({FaultCode::contradiction,
                   "$.rolls[" + std::to_string(i) + "].price",
                   {},
                   std::to_string(*roll.price) + " for a roll that weighs " + trimmed(kg, 1) + " kg",
                   "more than its scrap brings, " + std::to_string(whole_up(scrap)),
                   "look at price and scrap_per_kg again; money is in whole pence or cents"});
  }
  return out;
}

std::vector<job::Finding> findings_of(const job::Cutting& cutting, const job::Plan& plan,
                                      const job::Yard& yard, const practice::Pack& pack) {
  std::vector<job::Finding> out;
  for (const job::CutRefusal& refusal : cutting.refused) {
    const job::Piece* piece = piece_of(plan, refusal.mark);
    if (piece == nullptr) continue;
    const Shape shape = shape_of(piece->net.outline);
    job::Finding finding;
    finding.level = job::Level::doubt;
    finding.where = where_of(*piece);
    finding.params = {{"mark", refusal.mark, ""},
                      {"count", static_cast<double>(refusal.count), ""},
                      {"code", static_cast<double>(piece->code.value_or(0)), ""},
                      {"length", static_cast<double>(std::max(shape.length, shape.width)), "mm"},
                      {"width", static_cast<double>(std::min(shape.length, shape.width)), "mm"}};
    if (refusal.why == "too-large") {
      Length widest;
      for (const job::YardRoll& roll : yard.rolls) {
        if (roll.code == piece->code) widest = max(widest, roll.width);
      }
      finding.params.push_back({"widest", widest.in_mm(), "mm"});
      finding.rule = "cutting.too_large";
    } else if (refusal.why == "not-stocked") {
      finding.rule = "cutting.not_stocked";
    } else if (refusal.why == "too-few") {
      finding.rule = "cutting.too_few";
    } else {
      finding.rule = "cutting.not_cut";
      finding.level = job::Level::note;
    }
    out.push_back(std::move(finding));
  }
  // Said once for each size of roll that is too heavy.
  const practice::Rule& lift = pack.rule("lift.one_person");
  std::set<std::pair<std::int64_t, double>> said;
  for (const job::CutRoll& roll : cutting.rolls) {
    const double kg = roll.mass.in_kg();
    if (kg <= lift.value || !said.emplace(roll.code, kg).second) continue;
    out.push_back({job::Level::note,
                   "cutting.heavy",
                   {{"width", roll.width.in_mm(), "mm"},
                    {"length", roll.length.in_mm(), "mm"},
                    {"code", static_cast<double>(roll.code), ""},
                    {"mass", kg, "kg"},
                    {"limit", lift.value, "kg"}},
                   "",
                   kg,
                   lift.value,
                   lift.source,
                   roll.name});
  }
  if (cutting.order > cutting.price) {
    out.push_back({job::Level::note, "cutting.minimum_order", {}, "", cutting.price, cutting.order, "", ""});
  }
  if (cutting.invented_yard) {
    out.push_back({job::Level::note, "cutting.invented_yard", {}, "", std::nullopt, std::nullopt, "", ""});
  }
  return out;
}

}  // namespace lapwright::cutting
