#include <lapwright/geom/grid.h>

#include <cmath>

namespace lapwright::geom {

Grid to_grid(Length length) {
  return static_cast<Grid>(std::round(length.in_mm() * 1000.0));
}

}  // namespace lapwright::geom
