// The integer grid of flat nets: 1 µm, and the one conversion between it and lengths.
#pragma once

#include <lapwright/base/units.h>

#include <compare>
#include <cstdint>

namespace lapwright::geom {

// A coordinate on a flat net, in µm. Nets stay within ±2^30 µm (1.07 km), so that two points are within 2^31
// µm of each other and products of their differences fit in 64 bits.
using Grid = std::int64_t;

struct GridPoint {
  Grid x = 0;
  Grid y = 0;
  friend constexpr auto operator<=>(const GridPoint&, const GridPoint&) = default;
};

// Nearest grid line; halves go away from zero. Same result on every machine.
Grid to_grid(Length length);
constexpr Length to_length(Grid grid) {
  return Length::um(grid);
}

inline GridPoint grid_point(Length x, Length y) {
  return {to_grid(x), to_grid(y)};
}

}  // namespace lapwright::geom
