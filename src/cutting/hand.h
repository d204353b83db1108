// What a hand would do without a plan: by width, first fit.
//
// The rack first, then rolls on sale; the widest pieces first. Each goes, as it is drawn, into the first row
// of an opened roll that is long enough and has room beside, else into a new row of the first opened roll
// that is wide enough and has room, else from a new roll of the narrowest width that takes it, the longest on
// sale. At the end each roll is swapped for a shorter one of its width where that is enough.
#pragma once

#include <lapwright/cutting/problem.h>

#include <cstdint>
#include <vector>

namespace lapwright::cutting {

struct HandPlan {
  std::vector<std::int64_t> taken;  // of each stock
  std::int64_t cost = 0;
};

// `single`: of each type the option that holds one piece. Limited stock, the rack, is opened first.
HandPlan by_hand(const Problem& problem, const std::vector<std::size_t>& single);

}  // namespace lapwright::cutting
