// Rectangles that hold pieces: one piece in its box, or two that are no rectangles head to tail in one.
//
// The lower piece lies as it is, the other is turned end for end and laid against it: over it, or beside it.
// One saw-tooth cut then serves both. Found by sliding one profile along the other over every place where a
// corner of one meets a corner of the other; pieces with overhangs are taken for their profile, which wastes
// lead and stays right.
#pragma once

#include <lapwright/cutting/problem.h>

#include <lapwright/geom/polygon.h>

#include <cstdint>
#include <vector>

namespace lapwright::cutting {

// One piece in the rectangle of an option: its box's low corner, as the option lies unturned.
struct Member {
  std::int32_t type = 0;
  bool reversed = false;
  std::int32_t x = 0;
  std::int32_t y = 0;
};

struct Shape {
  geom::Ring outline;       // of the net
  std::int32_t length = 0;  // of its box, whole mm, rounded up
  std::int32_t width = 0;
};
Shape shape_of(const geom::Ring& outline);
bool is_box(const Shape& shape);  // near enough that no other shape could lie beside it in its box

struct Fitting {
  Option option;
  std::vector<Member> members;
};

// Every option for these pieces, one type each; `kerf` in mm goes between the two of a pair, not round the
// rectangle.
std::vector<Fitting> fittings(const std::vector<Shape>& shapes, std::int32_t kerf);

}  // namespace lapwright::cutting
