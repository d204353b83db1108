// A problem on its coarsest grid: every side of an option is a whole number of steps, so that stock may be
// rounded down to them without losing a pattern.
#pragma once

#include <lapwright/cutting/problem.h>

#include <cstdint>
#include <vector>

namespace lapwright::cutting {

struct Oriented {
  std::int32_t option = 0;
  bool turned = false;
  std::int32_t along = 0;  // in steps
  std::int32_t across = 0;
};

struct Grid {
  std::int32_t step = 1;
  std::vector<std::int32_t> widths;  // of each stock, in steps, rounded down
  std::vector<std::int32_t> lengths;
  std::vector<Oriented> oriented;              // every way an option may lie that fits some stock
  std::vector<std::int32_t> different_widths;  // ascending, of stock
  std::vector<std::int32_t> width_of;          // of each stock: its place in different_widths
  std::int32_t widest = 0;
  std::int32_t longest = 0;
};

Grid grid_of(const Problem& problem);

// Worth of what is left over a width of `width` and a length of `length`, in the problem's own units.
inline std::int64_t worth(const Keep& keep, std::int64_t width, std::int64_t length) {
  if (keep.per_million == 0) return 0;
  const std::int64_t longer = width > length ? width : length;
  const std::int64_t shorter = width > length ? length : width;
  if (longer < keep.least_length || shorter < keep.least_width || shorter <= 0) return 0;
  return width * length * keep.per_million / 1'000'000;
}

}  // namespace lapwright::cutting
