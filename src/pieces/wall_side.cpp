#include "wall_side.h"

namespace lapwright::pieces {

WallSide wall_side(const job::Slope& slope, const job::Junction& junction) {
  const bool left = junction.hand == job::Hand::left;
  return {left ? Length{} : slope.width.value, left ? 1.0 : -1.0, junction.from,
          junction.to.value_or(slope.rafter.value)};
}

geom::Net for_hand(const geom::Net& left_hand_net, job::Hand hand) {
  return hand == job::Hand::left ? left_hand_net : geom::at_origin(geom::mirrored(left_hand_net));
}

geom::GridPoint for_hand(geom::GridPoint p, geom::Grid length, job::Hand hand) {
  return hand == job::Hand::left ? p : geom::GridPoint{length - p.x, p.y};
}

// A right-hand net is mirrored in x, so its x axis runs down the slope from its upper end; the outward face
// stays outward.
geom::Frame on_roof(const WallSide& wall, Length tail, Length length, Length leg) {
  const bool left = wall.inwards > 0;
  const Length x_origin = left ? tail : tail + length;
  return {{wall.u.in_mm() + wall.inwards * leg.in_mm(), x_origin.in_mm(), 0},
          {0, wall.inwards, 0},
          {-wall.inwards, 0, 0}};
}

geom::Frame on_wall(const WallSide& wall, Length start, Length length, Length height) {
  const bool left = wall.inwards > 0;
  const Length x_origin = left ? start : start + length;
  return {{wall.u.in_mm(), x_origin.in_mm(), height.in_mm()}, {0, wall.inwards, 0}, {0, 0, 1}};
}

}  // namespace lapwright::pieces
