#include "grid.h"

#include <algorithm>
#include <numeric>

namespace lapwright::cutting {

Grid grid_of(const Problem& problem) {
  Grid out;
  std::int32_t step = 0;
  const auto fits = [&](std::int32_t along, std::int32_t across) {
    return std::any_of(problem.stocks.begin(), problem.stocks.end(),
                       [&](const Stock& s) { return along <= s.length && across <= s.width; });
  };
  for (std::size_t i = 0; i < problem.options.size(); ++i) {
    const Option& option = problem.options[i];
    for (const bool turned : {false, true}) {
      if (turned && (!option.may_turn || option.along == option.across)) continue;
      const std::int32_t along = lies_along(option, turned);
      const std::int32_t across = lies_across(option, turned);
      if (!fits(along, across)) continue;
      step = std::gcd(step, std::gcd(along, across));
      out.oriented.push_back({static_cast<std::int32_t>(i), turned, along, across});
    }
  }
  out.step = std::max(step, 1);
  for (Oriented& o : out.oriented) {
    o.along /= out.step;
    o.across /= out.step;
  }
  for (const Stock& stock : problem.stocks) {
    out.widths.push_back(stock.width / out.step);
    out.lengths.push_back(stock.length / out.step);
    out.widest = std::max(out.widest, out.widths.back());
    out.longest = std::max(out.longest, out.lengths.back());
  }
  out.different_widths = out.widths;
  std::sort(out.different_widths.begin(), out.different_widths.end());
  out.different_widths.erase(std::unique(out.different_widths.begin(), out.different_widths.end()),
                             out.different_widths.end());
  for (const std::int32_t width : out.widths) {
    const auto at = std::lower_bound(out.different_widths.begin(), out.different_widths.end(), width);
    out.width_of.push_back(static_cast<std::int32_t>(at - out.different_widths.begin()));
  }
  return out;
}

}  // namespace lapwright::cutting
