#include <lapwright/cutting/bound.h>

#include "cover.h"
#include "two_stage.h"

#include <algorithm>
#include <numeric>

namespace lapwright::cutting {

namespace {

constexpr std::int64_t kScaleMost = std::int64_t{1} << 46;

std::int64_t scale_for(const Problem& problem) {
  std::int64_t most = 1;
  for (const Stock& stock : problem.stocks) most = std::max(most, stock.cost);
  std::int64_t scale = 1;
  while (most * scale * 2 < kScaleMost && scale < (std::int64_t{1} << 30)) scale *= 2;
  return scale;
}

// ceil(sum / scale), sums that may be below 0 give 0.
std::int64_t up(std::int64_t sum, std::int64_t scale) {
  return sum <= 0 ? 0 : (sum + scale - 1) / scale;
}

}  // namespace

Certificate certify_two_stage(const Problem& problem, const std::vector<double>& prices) {
  Certificate out;
  out.scale = scale_for(problem);
  TwoStage<std::int64_t> table(problem);
  double shrink = 0;
  for (int attempt = 0; attempt < 40; ++attempt) {
    out.prices.clear();
    for (const double price : prices) {
      out.prices.push_back(std::max<std::int64_t>(
          0, static_cast<std::int64_t>(price * (1 - shrink) * static_cast<double>(out.scale))));
    }
    table.price(out.prices, out.scale);
    double above = 0;
    std::int64_t taken_off = 0;
    for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
      const Stock& stock = problem.stocks[s];
      const std::int64_t over = table.most(s) - stock.cost * out.scale;
      if (over <= 0) continue;
      if (stock.available != kUnlimited) {
        taken_off += over * stock.available;
      } else {
        above = std::max(above, static_cast<double>(over) / static_cast<double>(table.most(s)));
      }
    }
    if (above == 0) {
      std::int64_t sum = -taken_off;
      for (std::size_t t = 0; t < prices.size(); ++t) sum += out.prices[t] * problem.demand[t];
      out.linear = rounded_up(problem, up(sum, out.scale));
      std::vector<std::int64_t> values;
      for (std::size_t s = 0; s < problem.stocks.size(); ++s) values.push_back(table.most(s));
      out.bound = std::max(out.linear, covered(problem, values, sum + taken_off));
      return out;
    }
    shrink = 1 - (1 - shrink) * (1 - above) + (attempt > 0 ? shrink * 0.1 : 0) + 1e-13;
  }
  out.prices.assign(prices.size(), 0);
  return out;
}

std::int64_t area_bound(const Problem& problem, const std::vector<double>& areas) {
  double needed = 0;
  for (std::size_t t = 0; t < areas.size(); ++t) needed += areas[t] * static_cast<double>(problem.demand[t]);
  std::vector<std::int64_t> each;
  for (const Stock& stock : problem.stocks) each.push_back(std::int64_t{stock.width} * stock.length);
  // Two square units off: a sum of doubles proves nothing to the last of them.
  const std::int64_t whole_rolls = covered(problem, each, static_cast<std::int64_t>(needed) - 2);
  // Limited stock first where it is cheaper by area: the fractional knapsack is a bound.
  std::vector<std::size_t> order(problem.stocks.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  // What is kept pays back at most its rate on every bit that is not a piece.
  const double back = static_cast<double>(problem.keep.per_million) / 1e6;
  const auto rate = [&](std::size_t s) {
    const Stock& stock = problem.stocks[s];
    const double area = static_cast<double>(stock.width) * stock.length;
    return std::max(0.0, static_cast<double>(stock.cost) / area - back);
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return rate(a) < rate(b); });
  double cost = needed * back;
  for (const std::size_t s : order) {
    if (needed <= 0) break;
    const Stock& stock = problem.stocks[s];
    const double area = static_cast<double>(stock.width) * stock.length;
    const double have = stock.available == kUnlimited
                            ? needed
                            : std::min(needed, area * static_cast<double>(stock.available));
    cost += have * rate(s);
    needed -= have;
  }
  // Doubles: a millionth of a millionth off, so that rounding never proves too much.
  const double safe = cost * (1 - 1e-12);
  auto whole = static_cast<std::int64_t>(safe);
  if (static_cast<double>(whole) < safe) ++whole;
  return std::max(rounded_up(problem, whole), whole_rolls);
}

std::int64_t rounded_up(const Problem& problem, std::int64_t bound) {
  if (problem.keep.per_million != 0) return bound;
  std::int64_t step = 0;
  for (const Stock& stock : problem.stocks) step = std::gcd(step, stock.cost);
  if (step <= 1) return bound;
  return (bound + step - 1) / step * step;
}

}  // namespace lapwright::cutting
