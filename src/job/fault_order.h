// Faults in the order of the file.
#pragma once

#include <lapwright/base/fault.h>

#include <algorithm>
#include <numeric>
#include <tuple>
#include <utility>
#include <vector>

namespace lapwright::job {

// By place; at one place, in the order in which they were found.
inline Faults in_file_order(Faults faults) {
  std::vector<std::size_t> order(faults.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const SourceSpot& left = faults[a].spot;
    const SourceSpot& right = faults[b].spot;
    return std::tuple(left.line, left.column, a) < std::tuple(right.line, right.column, b);
  });
  Faults out;
  out.reserve(faults.size());
  for (const std::size_t i : order) out.push_back(std::move(faults[i]));
  return out;
}

}  // namespace lapwright::job
