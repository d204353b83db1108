// Corner pieces that are welded in where a stack's front or back meets its side: two panels, one on the units
// beside the stack, one turned up the stack's side.
//
//        y ^      +--------+
//          |     /        /     return, on the stack's side
//     past + - -+- - - - +      fold, up 90
//          |    |        |      on the roof
//          +----+--------+
//          +--------------------> x  up the stack's side
//
// The corner stands where the seam with the upstand begins: at the lower end of an apron's piece, at the
// upper end of a gutter's. Both seams are edge to edge.
#pragma once

#include "place.h"

#include <lapwright/geom/net.h>
#include <lapwright/job/plan.h>

#include <vector>

namespace lapwright::pieces {

struct CornerShape {
  geom::Net net;  // as drawn for the right side of the stack
  geom::GridPoint base_point;
  geom::Vec3 origin;  // of the drawing's (0, 0), and of its x, in the slope's frame
  geom::Vec3 x_axis;
  geom::Vec3 y_axis;
  std::vector<job::Figure> figures;
};

// Beside the front: `upright` is the seam with the apron's upstand, `past` that with the part of its cover
// beside the stack.
CornerShape apron_corner(const Place& place, geom::Vec3 corner, Length past, Length upright, bool right);

// Beside the back: `spill` long down to the units, turned `down` from level.
CornerShape gutter_corner(const Place& place, geom::Vec3 corner, Length past, Length upright, Length spill,
                          Angle down, bool right);

// The piece, one of it; for the left side the drawing is turned over.
job::Piece corner_piece(const Place& place, CornerShape shape, bool right, std::int64_t code);

// Adds it, with the step that welds it in.
void add_corner(const Place& place, CornerShape shape, bool right, std::int64_t code, std::int64_t course,
                job::JunctionPlan& plan);

// What a weld asks of the person, once a stack.
void say_welding(const Place& place, job::JunctionPlan& plan);

}  // namespace lapwright::pieces
