#include "on_join.h"

#include <lapwright/base/trig.h>

#include <utility>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::Grid;
using geom::to_grid;
using geom::Vec3;

bool is_mirrored(const JoinPlace& place) {
  return place.line.sides[0].hand == job::Hand::left;
}

}  // namespace

double JoinPlace::along_per_up() const {
  return hypotenuse(line.sides[0].drift, 1);
}

geom::Net join_net(const JoinPlace& place, Length length, Length side, Length edge) {
  const Grid x = to_grid(length);
  const Grid low = to_grid(edge);
  const Grid hinge = low + to_grid(side);
  const Grid high = hinge + to_grid(side);
  const Grid top = high + low;
  geom::Net net;
  net.outline = {{0, 0}, {x, 0}, {x, top}, {0, top}};
  net.roles = {EdgeRole::side, EdgeRole::head, EdgeRole::side, EdgeRole::tail};
  if (low > 0) {
    net.folds.push_back({{0, low}, {x, low}, Angle::degrees(90), true});
    net.folds.push_back({{0, high}, {x, high}, Angle::degrees(90), true});
  }
  net.folds.push_back({{0, hinge}, {x, hinge}, place.line.fold, place.is_valley()});
  return is_mirrored(place) ? geom::at_origin(geom::mirrored(net)) : net;
}

geom::Frame join_frame(const JoinPlace& place, Length start, Length length, Length side, Length edge,
                       Length below) {
  const job::JoinSide& first = place.line.sides[0];
  const double k = place.along_per_up();
  const Vec3 up_line{first.drift / k, 1 / k, 0};
  const Vec3 along = is_mirrored(place) ? -1.0 * up_line : up_line;
  const Vec3 across{-along.y, along.x, 0};  // out of the roof × along: into the first slope
  const Vec3 foot{job::u_at(first, *place.slopes[0], Length{}).in_mm(), 0, 0};
  const Length from = is_mirrored(place) ? start + length : start;
  // Two planes as far below the slopes meet in a line that is further from the first slope, too.
  const Vec3 down = below.in_mm() * (Vec3{0, 0, -1} - tan(place.line.fold / 2.0) * across);
  return {foot + down + from.in_mm() * up_line - (edge + side).in_mm() * across, along, across};
}

job::Piece join_piece(std::string_view kind, const JoinPlace& place, Length length, Length side,
                      Length edge) {
  job::Piece piece;
  piece.kind = kind;
  piece.slope = place.slopes[0]->name;
  piece.junction = place.name;
  piece.net = join_net(place, length, side, edge);
  piece.base_point = geom::grid_point(length / 2.0, edge + side * 1.5);
  piece.length = length;
  piece.width = (side + edge) * 2.0;
  return piece;
}

}  // namespace lapwright::pieces
