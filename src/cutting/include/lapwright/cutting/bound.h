// What no cutting can be cheaper than, proven in whole numbers.
//
// A certificate is a list of prices, one a type. Where no pattern of a class is worth more at these prices
// than its stock costs, the demand at these prices is the least that any plan of that class costs (linear
// duality). Stock of which there is only so much may be worth more; that much is taken off. Whoever doubts it
// runs one dynamic programme.
#pragma once

#include <lapwright/cutting/problem.h>

#include <cstdint>
#include <vector>

namespace lapwright::cutting {

struct Certificate {
  std::vector<std::int64_t> prices;  // of each type, in 1/scale of the problem's money
  std::int64_t scale = 1;
  std::int64_t linear = 0;  // money, rounded up to what sums of stock can cost
  std::int64_t bound = 0;   // the same, or more where whole rolls are counted (cover.h)
};

// Two stages: strips over the whole width or the whole length, single pieces in them, trimmed. Made from any
// prices, good ones give a good bound.
Certificate certify_two_stage(const Problem& problem, const std::vector<double>& prices);

// Any cutting at all: the least area of lead in whole rolls, and at the cheapest stock by area, in whole
// rolls. `areas` of one piece of each type, in square units.
std::int64_t area_bound(const Problem& problem, const std::vector<double>& areas);

// The bound raised to what sums of stock can cost at all.
std::int64_t rounded_up(const Problem& problem, std::int64_t bound);

}  // namespace lapwright::cutting
