// Small jobs solved outright: the cheapest plan of strip cutting, by every sub-multiset of the pieces.
#pragma once

#include <lapwright/cutting/problem.h>

#include <cstdint>
#include <optional>

namespace lapwright::cutting {

// The cheapest of all plans whose patterns have two stages. Nothing where there are too many sub-multisets
// for `work_limit`, where stock is limited, something is worth keeping, or cuts and widths are weighed
// against lead.
std::optional<Solution> exact_two_stage(const Problem& problem, std::int64_t work_limit, std::int64_t& work);

}  // namespace lapwright::cutting
