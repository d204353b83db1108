#include <lapwright/cutting/cut_plan.h>

#include "demand.h"
#include "hand.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace lapwright::cutting {

namespace {

constexpr std::int64_t kLeastWork = 1'000'000;
constexpr double kEffortMost = 1000;  // a quarter of an hour

}  // namespace

struct CutPlan::State {
  Demand demand;
  std::vector<Cutter> cutters;
  std::vector<std::int64_t> budgets;
  std::size_t at = 0;
  std::string currency;
  std::int64_t minimum_order = 0;

  job::CutRoll roll_of(const CodeDemand& code, const Pattern& pattern) const {
    const StockOf& stock = code.stocks[static_cast<std::size_t>(pattern.stock)];
    job::CutRoll out = lay_out(code.problem, pattern, code.pieces, stock.width, stock.length);
    out.code = code.code;
    out.width = Length::mm(stock.width);
    out.length = Length::mm(stock.length);
    out.count = pattern.copies;
    out.offcut = stock.offcut;
    out.price = stock.price;
    out.mass = Mass::kg(code.kg_per_mm2 * stock.width * stock.length);
    return out;
  }
};

CutPlan::CutPlan(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack, double effort)
    : state_(std::make_unique<State>()) {
  state_->demand = demand_of(plan, yard, pack);
  state_->currency = yard.currency;
  state_->minimum_order = yard.minimum_order;
  effort = effort > 0 ? std::min(effort, kEffortMost) : 0;
  double all = 0;
  const auto size = [](const CodeDemand& code) {
    double pieces = 0;
    for (const std::int64_t n : code.problem.demand) pieces += static_cast<double>(n);
    return std::sqrt(pieces);
  };
  for (const CodeDemand& code : state_->demand.codes) all += size(code);
  for (const CodeDemand& code : state_->demand.codes) {
    const double share = effort * static_cast<double>(kWorkOfASecond) * size(code) / all;
    state_->budgets.push_back(std::max(kLeastWork, static_cast<std::int64_t>(share)));
    state_->cutters.emplace_back(code.problem, state_->budgets.back());
  }
}

CutPlan::~CutPlan() = default;
CutPlan::CutPlan(CutPlan&&) noexcept = default;
CutPlan& CutPlan::operator=(CutPlan&&) noexcept = default;

bool CutPlan::step() {
  State& state = *state_;
  // First a plan for every code, then better ones.
  for (Cutter& cutter : state.cutters) {
    if (cutter.has_plan()) continue;
    cutter.step();
    return true;
  }
  if (state.at < state.cutters.size() && !state.cutters[state.at].step()) ++state.at;
  return state.at < state.cutters.size();
}

bool CutPlan::has_plan() const {
  return std::all_of(state_->cutters.begin(), state_->cutters.end(),
                     [](const Cutter& cutter) { return cutter.has_plan(); });
}

double CutPlan::progress() const {
  double done = 0;
  double all = 0;
  for (std::size_t i = 0; i < state_->cutters.size(); ++i) {
    const auto budget = static_cast<double>(state_->budgets[i]);
    done += budget * state_->cutters[i].progress();
    all += budget;
  }
  return all == 0 ? 1 : done / all;
}

job::Cutting CutPlan::result() const {
  job::Cutting out;
  out.currency = state_->currency;
  out.refused = state_->demand.refused;
  double any = 0;
  double straight = 0;
  double strips = 0;
  std::vector<std::int32_t> widths;
  for (std::size_t i = 0; i < state_->cutters.size(); ++i) {
    const CodeDemand& code = state_->demand.codes[i];
    const Cutter& cutter = state_->cutters[i];
    Solution solution = cutter.best();
    std::stable_sort(
        solution.patterns.begin(), solution.patterns.end(), [&](const Pattern& a, const Pattern& b) {
          const StockOf& p = code.stocks[static_cast<std::size_t>(a.stock)];
          const StockOf& q = code.stocks[static_cast<std::size_t>(b.stock)];
          return std::tuple(p.offcut, -p.width, -p.length) < std::tuple(q.offcut, -q.width, -q.length);
        });
    const std::vector<std::int64_t> missing = cutter.missing();
    double pieces = 0;  // worth of the cut pieces as scrap: the part of the money that no plan changes
    double used = 0;
    for (std::size_t t = 0; t < missing.size(); ++t) {
      if (missing[t] > 0) out.refused.push_back({code.pieces.marks[t], missing[t], "too-few"});
      const double area = code.areas[t] * static_cast<double>(code.problem.demand[t] - missing[t]);
      used += area * code.kg_per_mm2;
      pieces += area * code.scrap_per_mm2;
    }
    job::CutCode bounds;
    bounds.code = code.code;
    double cost = 0;
    double stock_kg = 0;
    double kept_kg = 0;
    for (const Pattern& pattern : solution.patterns) {
      const StockOf& stock = code.stocks[static_cast<std::size_t>(pattern.stock)];
      job::CutRoll roll = state_->roll_of(code, pattern);
      roll.name = "R" + std::to_string(out.rolls.size() + 1);
      const auto copies = static_cast<double>(pattern.copies);
      double kept = 0;
      for (const job::CutLeft& left : roll.left) {
        if (left.keep) kept += left.length.in_mm() * left.width.in_mm();
      }
      (stock.offcut ? out.from_rack : out.bought) += roll.mass * copies;
      out.price += stock.price * copies;
      out.kept_worth += (kept * code.keep_per_mm2 - stock.worth) * copies;
      cost += (stock.price + stock.worth - kept * code.keep_per_mm2) * copies;
      stock_kg += roll.mass.in_kg() * copies;
      kept_kg += kept * code.kg_per_mm2 * copies;
      for (const job::CutStep& step : roll.cuts) out.cuts += step.cuts * pattern.copies;
      if (!stock.offcut) widths.push_back(stock.width);
      out.rolls.push_back(std::move(roll));
    }
    const double scrap_kg = stock_kg - used - kept_kg;
    const double scrap_per_kg = code.scrap_per_mm2 / code.kg_per_mm2;
    out.used += Mass::kg(used);
    out.kept += Mass::kg(kept_kg);
    out.scrap += Mass::kg(scrap_kg);
    out.scrap_worth += scrap_kg * scrap_per_kg;
    cost -= scrap_kg * scrap_per_kg;
    bounds.cost = cost;
    const auto money = [&](std::int64_t parts) { return static_cast<double>(parts) / kMoneyParts + pieces; };
    Problem cut = code.problem;
    for (std::size_t t = 0; t < missing.size(); ++t) cut.demand[t] -= missing[t];
    const bool all = std::all_of(missing.begin(), missing.end(), [](std::int64_t n) { return n == 0; });
    bounds.any = money(area_bound(cut, code.areas));
    bounds.straight = all ? std::max(bounds.any, money(cutter.straight())) : bounds.any;
    bounds.strips = all ? std::max(bounds.any, money(cutter.strips().bound)) : bounds.any;
    if (all && cutter.exact_strips() >= 0) {
      bounds.searched = money(cutter.exact_strips());
      bounds.strips = std::max(bounds.strips, bounds.searched);
    }
    bounds.best_strips = bounds.cost <= bounds.strips + 1e-6;
    bounds.proof.scale = cutter.strips().scale;
    // Stopped before it was proven, the plan has no prices yet: none of them is worth anything, then.
    const std::vector<std::int64_t>& prices = cutter.strips().prices;
    for (std::size_t t = 0; all && t < missing.size(); ++t) {
      bounds.proof.prices.push_back({code.pieces.marks[t], t < prices.size() ? prices[t] : 0});
    }
    const Cutter::StraightProof straightly = cutter.straight_proof();
    if (all && straightly.step > 0 && bounds.straight > bounds.any) {
      bounds.proof.straight_step = Length::mm(straightly.step);
      bounds.proof.straight_scale = straightly.unit;
      for (std::size_t t = 0; t < straightly.prices.size(); ++t) {
        bounds.proof.straight_prices.push_back({code.pieces.marks[t], straightly.prices[t]});
      }
    }
    for (const Fitting& fitting : code.pieces.fittings) {
      job::CutProof::Box box{Length::mm(fitting.option.along), Length::mm(fitting.option.across), {}};
      for (const Member& member : fitting.members) {
        box.marks.push_back(code.pieces.marks[static_cast<std::size_t>(member.type)]);
      }
      bounds.proof.boxes.push_back(std::move(box));
    }
    any += bounds.any;
    straight += bounds.straight;
    strips += bounds.strips;
    out.cost += bounds.cost;
    const HandPlan hand = by_hand(cut, code.pieces.singles);
    for (std::size_t s = 0; s < hand.taken.size(); ++s) {
      const StockOf& stock = code.stocks[s];
      if (stock.offcut) continue;
      out.hand.bought +=
          Mass::kg(code.kg_per_mm2 * stock.width * stock.length * static_cast<double>(hand.taken[s]));
    }
    out.hand.cost += static_cast<double>(hand.cost) / kMoneyParts + pieces;
    out.codes.push_back(std::move(bounds));
  }
  std::sort(widths.begin(), widths.end());
  out.widths = std::unique(widths.begin(), widths.end()) - widths.begin();
  out.order = std::max(out.price, out.price > 0 ? static_cast<double>(state_->minimum_order) : 0);
  const auto gap = [&](double bound) { return bound > 0 ? out.cost / bound - 1 : 0; };
  out.gap_any = gap(any);
  out.gap_straight = gap(straight);
  out.gap_strips = gap(strips);
  return out;
}

job::Yard yard_after(const job::Yard& yard, const job::Cutting& cutting) {
  job::Yard out = yard;
  for (const job::CutRoll& roll : cutting.rolls) {
    if (roll.offcut) {
      std::int64_t gone = roll.count;
      for (job::YardOffcut& offcut : out.offcuts) {
        const bool same = offcut.code == roll.code &&
                          std::floor(offcut.width.in_mm() + 1e-6) == roll.width.in_mm() &&
                          std::floor(offcut.length.in_mm() + 1e-6) == roll.length.in_mm();
        if (!same) continue;
        const std::int64_t taken = std::min(gone, offcut.count);
        offcut.count -= taken;
        gone -= taken;
      }
    }
    for (const job::CutLeft& left : roll.left) {
      if (!left.keep) continue;
      const job::YardOffcut more{roll.code, min(left.width, left.length), max(left.width, left.length),
                                 roll.count};
      const auto like = std::find_if(out.offcuts.begin(), out.offcuts.end(), [&](const job::YardOffcut& one) {
        return one.code == more.code && one.width == more.width && one.length == more.length;
      });
      if (like == out.offcuts.end()) {
        out.offcuts.push_back(more);
      } else {
        like->count += more.count;
      }
    }
  }
  std::erase_if(out.offcuts, [](const job::YardOffcut& offcut) { return offcut.count <= 0; });
  return out;
}

}  // namespace lapwright::cutting
