// Whole rolls only: the least that stock costs which is worth as much as all pieces together.
//
// At any prices, no roll holds pieces of more worth than its most valuable pattern. So a plan's rolls
// together are worth at least the demand, and the cheapest whole rolls that are bound it from below; for a
// few rolls that tells far more than the linear program, which may take half a roll.
#pragma once

#include <lapwright/cutting/problem.h>

#include <cstdint>
#include <vector>

namespace lapwright::cutting {

// `values` of one of each stock at most, `need` of all pieces at least; 0 where no stock suffices or
// something is worth keeping. Values are counted in steps of a power of two, rounded up, which only lowers
// the bound.
std::int64_t covered(const Problem& problem, const std::vector<std::int64_t>& values, std::int64_t need);

}  // namespace lapwright::cutting
