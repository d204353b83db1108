#include "straight.h"

#include "cover.h"

#include "grid.h"

#include <lapwright/cutting/bound.h>

#include <algorithm>

namespace lapwright::cutting {

namespace {

constexpr std::int32_t kPlacesMost =
    1200;  // along the longest stock: the grid is made coarser until that holds
constexpr std::int64_t kStepsOfWork = 14;  // of the table, in one of the others': it runs side by side
constexpr double kValueMost = 1 << 29;
constexpr int kRoundsMost = 60;
constexpr double kWorthARound = 2e-5;  // what is left to gain, as a share of the bound

std::int32_t step_of(const Problem& problem) {
  const Grid grid = grid_of(problem);
  std::int32_t longest = 1;
  for (const Stock& stock : problem.stocks) longest = std::max({longest, stock.length, stock.width});
  return std::max(grid.step, (longest + kPlacesMost - 1) / kPlacesMost);
}

std::vector<GuillotineTable::Item> items_of(const Problem& problem, std::int32_t step,
                                            std::vector<std::int32_t>& option_of) {
  std::vector<GuillotineTable::Item> out;
  for (std::size_t i = 0; i < problem.options.size(); ++i) {
    const Option& option = problem.options[i];
    const std::int32_t along = std::max(1, option.along / step);  // see too_coarse_
    const std::int32_t across = std::max(1, option.across / step);
    out.push_back({across, along});
    option_of.push_back(static_cast<std::int32_t>(i));
    if (!option.may_turn || along == across) continue;
    out.push_back({along, across});
    option_of.push_back(static_cast<std::int32_t>(i));
  }
  return out;
}

std::int32_t most(const Problem& problem, std::int32_t step, std::int32_t Stock::* side) {
  std::int32_t out = 1;
  for (const Stock& stock : problem.stocks) out = std::max(out, stock.*side / step);
  return out;
}

}  // namespace

StraightBound::StraightBound(const Problem& problem, ColumnGeneration& program)
    : problem_(problem),
      program_(program),
      step_(step_of(problem)),
      table_(items_of(problem, step_, option_of_), most(problem, step_, &Stock::width),
             most(problem, step_, &Stock::length)) {
  // A piece smaller than a step cannot be rounded down: there is no bound, then.
  for (const Option& option : problem.options) {
    too_coarse_ = too_coarse_ || option.along < step_ || option.across < step_;
  }
}

std::int64_t StraightBound::round_work() const {
  return table_.work() / kStepsOfWork;
}

bool StraightBound::step() {
  if (++rounds_ > kRoundsMost || too_coarse_) return false;
  work_ += round_work();
  const std::vector<double> prices = program_.prices();
  // Whole prices, so scaled that the dearest way to fill the largest stock with them stays in range.
  std::vector<double> values;
  double density = 0;
  for (const Option& option : problem_.options) {
    double value = 0;
    for (const Share& share : option.gives)
      value += prices[static_cast<std::size_t>(share.type)] * share.count;
    values.push_back(value);
    const double area =
        static_cast<double>(std::max(1, coarse(option.along))) * std::max(1, coarse(option.across));
    density = std::max(density, value / area);
  }
  const double all = density * most(problem_, step_, &Stock::width) * most(problem_, step_, &Stock::length);
  if (all <= 0) return false;
  const double scale = kValueMost / all;
  std::vector<std::int64_t> whole;
  for (const double price : prices) whole.push_back(static_cast<std::int64_t>(price * scale));
  std::vector<std::int32_t> items;
  for (const std::int32_t option : option_of_) {
    std::int64_t value = 0;
    for (const Share& share : problem_.options[static_cast<std::size_t>(option)].gives) {
      value += whole[static_cast<std::size_t>(share.type)] * share.count;
    }
    items.push_back(static_cast<std::int32_t>(value));
  }
  table_.fill(items);

  // The stock that is worth most above its cost says how far the prices must shrink: to cost · unit / worth,
  // where a unit of money is `unit` of the prices.
  const auto unit = static_cast<std::int64_t>(scale * 1024);  // in 1/1024, so that rounding costs nothing
  double ratio = 1;
  std::vector<std::int64_t> worth_of;
  for (const Stock& stock : problem_.stocks) {
    worth_of.push_back(table_.value(coarse(stock.width), coarse(stock.length)));
    if (stock.available != kUnlimited || worth_of.back() == 0) continue;
    ratio = std::min(ratio, static_cast<double>(stock.cost) * static_cast<double>(unit) / 1024 /
                                static_cast<double>(worth_of.back()));
  }
  // num / 2^30 <= the ratio, so every worth shrinks to at most its cost.
  constexpr std::int64_t kDen = std::int64_t{1} << 30;
  auto num = static_cast<std::int64_t>(ratio * static_cast<double>(kDen));
  for (std::size_t s = 0; s < problem_.stocks.size(); ++s) {
    const Stock& stock = problem_.stocks[s];
    if (stock.available != kUnlimited) continue;
    while (num > 0 && worth_of[s] * num / kDen * 1024 > stock.cost * unit) num -= 1 + num / 1'000'000'000;
  }
  std::int64_t sum = 0;
  for (std::size_t t = 0; t < whole.size(); ++t) sum += whole[t] * num / kDen * problem_.demand[t];
  for (std::size_t s = 0; s < problem_.stocks.size(); ++s) {
    const Stock& stock = problem_.stocks[s];
    if (stock.available == kUnlimited) continue;
    const std::int64_t over = worth_of[s] * num / kDen + 1 - stock.cost * unit / 1024;
    if (over > 0) sum -= over * stock.available;
  }
  const auto bound = static_cast<std::int64_t>(
      sum <= 0 ? 0 : (static_cast<double>(sum) * 1024 / static_cast<double>(unit)) * (1 - 1e-12));
  std::int64_t demand = 0;
  for (std::size_t t = 0; t < whole.size(); ++t) demand += whole[t] * problem_.demand[t];
  const std::int64_t proven = std::max(rounded_up(problem_, bound), covered(problem_, worth_of, demand));
  if (proven > bound_) {
    bound_ = proven;
    proof_ = {step_, unit, whole};
  }

  bool any = false;
  for (std::size_t s = 0; s < problem_.stocks.size(); ++s) {
    const Stock& stock = problem_.stocks[s];
    if (static_cast<double>(worth_of[s]) <= static_cast<double>(stock.cost) * scale * (1 + 1e-7)) continue;
    Pattern pattern;
    pattern.stock = static_cast<std::int32_t>(s);
    pattern.counts.assign(problem_.demand.size(), 0);
    const std::vector<std::int32_t> counts = table_.counts(coarse(stock.width), coarse(stock.length));
    for (std::size_t i = 0; i < counts.size(); ++i) {
      if (counts[i] == 0) continue;
      for (const Share& share : problem_.options[static_cast<std::size_t>(option_of_[i])].gives) {
        pattern.counts[static_cast<std::size_t>(share.type)] += counts[i] * share.count;
      }
    }
    if (program_.offer(pattern)) {
      program_.settle();
      any = true;
    }
  }
  return any && static_cast<double>(bound_) < program_.value() * (1 - kWorthARound);
}

}  // namespace lapwright::cutting
