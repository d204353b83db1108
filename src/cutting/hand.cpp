#include "hand.h"

#include "grid.h"

#include <algorithm>
#include <numeric>

namespace lapwright::cutting {

namespace {

constexpr std::int64_t kOpenedMost = 1'000'000;  // no hand looks at more

struct Row {
  std::int32_t length = 0;
  std::int32_t left = 0;  // across
};
struct Opened {
  std::size_t stock = 0;
  std::int32_t left = 0;  // along
  std::vector<Row> rows;
  bool used = false;
};

}  // namespace

HandPlan by_hand(const Problem& problem, const std::vector<std::size_t>& single) {
  HandPlan out;
  out.taken.assign(problem.stocks.size(), 0);
  const auto sides = [&](std::size_t type) {
    const Option& o = problem.options[single[type]];
    return std::pair(std::min(o.along, o.across), std::max(o.along, o.across));
  };
  const auto lies = [&](std::size_t type) {  // the longer side along the roll
    const Option& o = problem.options[single[type]];
    return o.may_turn ? sides(type) : std::pair(o.across, o.along);
  };
  std::vector<std::size_t> order(problem.demand.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return lies(a) > lies(b); });
  std::vector<Opened> rolls;
  const std::int64_t pieces = std::accumulate(problem.demand.begin(), problem.demand.end(), std::int64_t{0});
  const std::int64_t most = std::min(pieces, kOpenedMost / static_cast<std::int64_t>(problem.stocks.size()));
  for (std::size_t s = 0; s < problem.stocks.size(); ++s) {  // the rack, before anything is bought
    for (std::int64_t i = 0; i < std::min(problem.stocks[s].available, most); ++i) {
      rolls.push_back({s, problem.stocks[s].length, {}, false});
    }
  }
  for (const std::size_t type : order) {
    const auto [across, along] = lies(type);
    std::size_t from = 0;  // equal pieces: what was too full stays so
    for (std::int64_t n = problem.demand[type]; n > 0;) {
      bool placed = false;
      for (; from < rolls.size() && !placed; ++from) {
        Opened& roll = rolls[from];
        for (Row& row : roll.rows) {
          if (row.length < along || row.left < across) continue;
          row.left -= across;
          placed = true;
          break;
        }
        if (!placed && roll.left >= along && problem.stocks[roll.stock].width >= across) {
          roll.left -= along;
          roll.rows.push_back({along, problem.stocks[roll.stock].width - across});
          placed = true;
        }
        roll.used = roll.used || placed;
        if (placed) break;
      }
      if (!placed) {
        std::size_t best = problem.stocks.size();
        for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
          const Stock& stock = problem.stocks[s];
          if (stock.available != kUnlimited || stock.width < across || stock.length < along) continue;
          const bool better =
              best == problem.stocks.size() || stock.width < problem.stocks[best].width ||
              (stock.width == problem.stocks[best].width && stock.length > problem.stocks[best].length);
          if (better) best = s;
        }
        if (best == problem.stocks.size()) break;  // nothing on sale takes it
        rolls.push_back({best,
                         problem.stocks[best].length - along,
                         {{along, problem.stocks[best].width - across}},
                         true});
      }
      --n;
    }
  }
  for (const Opened& roll : rolls) {
    if (!roll.used) continue;
    std::size_t stock = roll.stock;
    const std::int32_t used = problem.stocks[stock].length - roll.left;
    for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
      const Stock& other = problem.stocks[s];
      if (problem.stocks[stock].available != kUnlimited) break;
      if (other.available == kUnlimited && other.width == problem.stocks[stock].width &&
          other.length >= used && other.cost < problem.stocks[stock].cost) {
        stock = s;
      }
    }
    ++out.taken[stock];
    const Stock& size = problem.stocks[stock];
    out.cost += size.cost - worth(problem.keep, size.width, size.length - used);
  }
  return out;
}

}  // namespace lapwright::cutting
