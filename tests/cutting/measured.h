// A solution measured again: does every pattern go into its stock, and are all pieces there?
#pragma once

#include <lapwright/cutting/problem.h>

#include <cstdint>
#include <string>
#include <vector>

namespace lapwright::cutting::sample {

// Empty when all is well.
inline std::string what_is_wrong(const Problem& problem, const Solution& solution) {
  std::vector<std::int64_t> have(problem.demand.size(), 0);
  std::vector<std::int64_t> taken(problem.stocks.size(), 0);
  std::int64_t cost = 0;
  for (const Pattern& pattern : solution.patterns) {
    const Stock& stock = problem.stocks[static_cast<std::size_t>(pattern.stock)];
    taken[static_cast<std::size_t>(pattern.stock)] += pattern.copies;
    cost += stock.cost * pattern.copies;
    std::int64_t along = 0;
    for (const Section& section : pattern.sections) {
      along += std::int64_t{section.length} * section.copies;
      std::int64_t across = 0;
      for (const Strip& strip : section.strips) {
        across += std::int64_t{strip.width} * strip.copies;
        std::int64_t filled = 0;
        for (const Cell& cell : strip.cells) {
          const Option& option = problem.options[static_cast<std::size_t>(cell.option)];
          if (cell.turned && !option.may_turn) return "a piece that may not turn is turned";
          if (lies_across(option, cell.turned) > strip.width) return "a piece is wider than its strip";
          filled += std::int64_t{lies_along(option, cell.turned)} * cell.count;
          if (problem.two_stage_only && problem.first_cut == FirstCut::across && cell.count != 1)
            return "a third stage";
          for (const Share& share : option.gives) {
            have[static_cast<std::size_t>(share.type)] +=
                pattern.copies * section.copies * strip.copies * cell.count * share.count;
          }
        }
        if (problem.two_stage_only && problem.first_cut == FirstCut::across && strip.cells.size() != 1)
          return "a third stage";
        if (filled > section.length) return "a strip is longer than its section";
      }
      if (across > stock.width) return "strips are wider than the roll";
    }
    if (along > stock.length) return "sections are longer than the roll";
  }
  for (std::size_t t = 0; t < have.size(); ++t) {
    if (have[t] != problem.demand[t])
      return "type " + std::to_string(t) + ": " + std::to_string(have[t]) + " pieces";
  }
  for (std::size_t s = 0; s < taken.size(); ++s) {
    if (problem.stocks[s].available != kUnlimited && taken[s] > problem.stocks[s].available)
      return "too much of a stock";
  }
  if (problem.keep.per_million == 0 && cost != solution.cost) return "the cost is another";
  return {};
}

}  // namespace lapwright::cutting::sample
