#include "cover.h"

#include <algorithm>
#include <limits>

namespace lapwright::cutting {

namespace {
constexpr std::int64_t kStepsMost = 8192;
constexpr std::int64_t kNever = std::numeric_limits<std::int64_t>::max() / 4;
}  // namespace

std::int64_t covered(const Problem& problem, const std::vector<std::int64_t>& values, std::int64_t need) {
  if (need <= 0 || problem.keep.per_million != 0) return 0;
  int shift = 0;
  while ((need >> shift) >= kStepsMost) ++shift;
  const auto steps = [&](std::int64_t value) { return (value + (std::int64_t{1} << shift) - 1) >> shift; };
  const auto end = static_cast<std::size_t>(steps(need));
  std::vector<std::int64_t> least(end + 1, kNever);  // cost of what is worth so many steps at least
  least[0] = 0;
  struct Kind {
    std::size_t steps = 0;
    std::int64_t cost = 0;
  };
  std::vector<Kind> unlimited;
  for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
    if (problem.stocks[s].available != kUnlimited || values[s] <= 0) continue;
    unlimited.push_back({static_cast<std::size_t>(steps(values[s])), problem.stocks[s].cost});
  }
  for (std::size_t v = 1; v <= end; ++v) {
    for (const Kind& kind : unlimited) {
      least[v] = std::min(least[v], kind.cost + least[v - std::min(v, kind.steps)]);
    }
  }
  for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
    const Stock& stock = problem.stocks[s];
    if (stock.available == kUnlimited || values[s] <= 0) continue;
    const auto one = static_cast<std::size_t>(steps(values[s]));
    auto left = std::min(stock.available, static_cast<std::int64_t>(end / one + 1));
    for (std::int64_t block = 1; left > 0; block *= 2) {
      const std::int64_t take = std::min(block, left);
      left -= take;
      const std::size_t size = one * static_cast<std::size_t>(take);
      for (std::size_t v = end; v > 0; --v) {
        least[v] = std::min(least[v], take * stock.cost + least[v - std::min(v, size)]);
      }
    }
  }
  return least[end] >= kNever ? 0 : least[end];
}

}  // namespace lapwright::cutting
