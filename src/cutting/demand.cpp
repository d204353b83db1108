#include "demand.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace lapwright::cutting {

namespace {

std::int32_t down_mm(Length length) {
  return static_cast<std::int32_t>(std::floor(length.in_mm() + 1e-6));
}

// Junctions that are planned against what the trade forbids: their lead is not to be cut.
bool is_wrong(const job::Plan& plan, const job::Piece& piece) {
  if (piece.wrong) return true;
  for (const job::Choice& choice : plan.choices) {
    if (choice.taken && choice.level == job::Level::wrong && choice.slope == piece.slope &&
        choice.junction == piece.junction && (choice.face.empty() || choice.face == piece.face)) {
      return true;
    }
  }
  const std::string place = piece.slope + " / " + piece.junction;
  return std::any_of(plan.findings.begin(), plan.findings.end(), [&](const job::Finding& finding) {
    return finding.level == job::Level::wrong && (finding.where == piece.slope || finding.where == place ||
                                                  finding.where.starts_with(place + " / "));
  });
}

struct Wanted {
  const job::Piece* piece = nullptr;
  std::int64_t count = 0;
};

void add_stock(CodeDemand& code, const StockOf& stock, std::int64_t available, std::int32_t kerf) {
  const double area = static_cast<double>(stock.width) * stock.length;
  const double net = (stock.offcut ? stock.worth : stock.price) - code.scrap_per_mm2 * area;
  Stock one;
  one.width = stock.width + kerf;
  one.length = stock.length + kerf;
  one.cost = std::max<std::int64_t>(0, static_cast<std::int64_t>(std::llround(net * kMoneyParts)));
  one.available = available;
  code.problem.stocks.push_back(one);
  code.stocks.push_back(stock);
}

// Rolls on sale and the rack, of one code.
void add_stocks(CodeDemand& code, const job::Yard& yard, std::int32_t kerf) {
  const double kg = code.kg_per_mm2;
  code.scrap_per_mm2 = static_cast<double>(yard.scrap_per_kg) * kg;
  double cheapest = std::numeric_limits<double>::max();
  std::vector<std::pair<StockOf, std::int64_t>> rolls;
  for (const job::YardRoll& roll : yard.rolls) {
    if (roll.code != code.code) continue;
    StockOf stock;
    stock.width = down_mm(roll.width);
    stock.length = down_mm(roll.length);
    const double area = static_cast<double>(stock.width) * stock.length;
    stock.price = roll.price ? static_cast<double>(*roll.price)
                             : std::round(static_cast<double>(roll.price_per_kg.value_or(0)) * kg * area);
    cheapest = std::min(cheapest, stock.price / area);
    rolls.emplace_back(stock, roll.in_stock.value_or(kUnlimited));
  }
  // Never worth as much as new lead: a plan that buys rolls in order to keep them is no plan.
  const double share = static_cast<double>(yard.keep_percent) / 100;
  code.keep_per_mm2 = rolls.empty() ? code.scrap_per_mm2 : std::max(code.scrap_per_mm2, share * cheapest);
  const bool keeps = yard.keep_length > Length{};
  const auto longer = down_mm(yard.keep_length);
  const auto shorter = down_mm(yard.keep_width);
  if (keeps && code.keep_per_mm2 > code.scrap_per_mm2) {
    code.problem.keep.least_length = longer;
    code.problem.keep.least_width = shorter;
    code.problem.keep.per_million =
        static_cast<std::int64_t>(std::floor((code.keep_per_mm2 - code.scrap_per_mm2) * kMoneyParts * 1e6));
  }
  for (const auto& [stock, available] : rolls) add_stock(code, stock, available, kerf);
  for (const job::YardOffcut& offcut : yard.offcuts) {
    if (offcut.code != code.code) continue;
    StockOf stock;
    stock.width = down_mm(offcut.width);
    stock.length = down_mm(offcut.length);
    stock.offcut = true;
    const bool kept = keeps && stock.length >= longer && stock.width >= shorter;
    const double area = static_cast<double>(stock.width) * stock.length;
    stock.worth = (kept ? code.keep_per_mm2 : code.scrap_per_mm2) * area;
    add_stock(code, stock, offcut.count, kerf);
  }
}

bool fits(const CodeDemand& code, const Option& option) {
  return std::any_of(code.problem.stocks.begin(), code.problem.stocks.end(), [&](const Stock& stock) {
    return (option.along <= stock.length && option.across <= stock.width) ||
           (option.across <= stock.length && option.along <= stock.width);
  });
}

}  // namespace

Demand demand_of(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack) {
  Demand out;
  const auto kerf = static_cast<std::int32_t>(std::ceil(yard.kerf.in_mm() - 1e-6));
  std::map<std::int64_t, std::map<std::string, Wanted>> wanted;  // by code and mark
  std::map<std::string, std::int64_t> wrong;
  std::vector<std::string> order;
  for (const job::Piece& piece : plan.pieces) {
    if (!piece.code || piece.count <= 0 || piece.net.outline.size() < 3 || !pack.has_lead(*piece.code))
      continue;
    if (is_wrong(plan, piece)) {
      wrong[piece.mark] += piece.count;
      continue;
    }
    Wanted& one = wanted[*piece.code][piece.mark];
    if (one.piece == nullptr) one.piece = &piece;
    one.count += piece.count;
  }
  for (const auto& [mark, count] : wrong) out.refused.push_back({mark, count, "wrong"});
  for (const auto& [number, marks] : wanted) {
    CodeDemand code;
    code.code = number;
    code.kg_per_mm2 = pack.lead(number).kg_per_m2 / 1e6;
    code.pieces.kerf = kerf;
    code.problem.cut_cost = yard.cut_cost * static_cast<std::int64_t>(kMoneyParts);
    code.problem.width_cost = yard.width_cost * static_cast<std::int64_t>(kMoneyParts);
    add_stocks(code, yard, kerf);
    std::vector<Shape> shapes;
    for (const auto& [mark, one] : marks) {
      const Shape shape = shape_of(one.piece->net.outline);
      const Option grown{shape.length + kerf, shape.width + kerf, true, {}};
      if (!fits(code, grown)) {
        out.refused.push_back({mark, one.count, code.problem.stocks.empty() ? "not-stocked" : "too-large"});
        continue;
      }
      shapes.push_back(shape);
      code.pieces.marks.push_back(mark);
      code.areas.push_back(one.piece->area.in_mm2());
      code.problem.demand.push_back(one.count);
    }
    if (shapes.empty()) continue;
    for (Fitting& fitting : fittings(shapes, kerf)) {
      Option option = fitting.option;
      option.along += kerf;
      option.across += kerf;
      if (!fits(code, option)) continue;
      if (fitting.members.size() == 1) code.pieces.singles.push_back(code.problem.options.size());
      code.problem.options.push_back(std::move(option));
      code.pieces.fittings.push_back(std::move(fitting));
    }
    out.codes.push_back(std::move(code));
  }
  return out;
}

}  // namespace lapwright::cutting
