// Marks that sheets of every kind share, in millimetres of paper. Each is a Drawing to be added where it
// belongs.
#pragma once

#include <lapwright/draw/drawing.h>

#include <string_view>

namespace lapwright::draw {

// A piece mark in a ring that grows with the text, centred on `at`, on white.
Drawing ringed_mark(Point at, std::string_view mark, double size = pt(18));
// Half the width of that ring.
double ring_radius(std::string_view mark, double size = pt(18));

// A line from `from` with a filled head at `to`.
Drawing arrow(Point from, Point to, LineKind kind = LineKind::thin, double head = 2.5);

// A leader: a dot at `at`, a line to `to`, and the text beyond it, level.
Drawing leader(Point at, Point to, std::string_view text, double size = pt(9));

// A bar that is 100 mm long on paper printed at actual size, ticked each 10 mm, with its words above. Its
// left end is at `at`.
Drawing check_bar(Point at);

// A scale bar for a drawing whose millimetre is `scale` millimetres of paper: a round length (1, 2 or 5 × 10ⁿ
// mm) that takes at most `room` of paper, in five fields, labelled in mm, or in m from 1 m on. Its left end
// is at `at`.
Drawing scale_bar(Point at, double scale, double room = 60);

// A cross in a ring: register marks of template pages are laid over each other by it. `name` stands beside
// it.
Drawing match_mark(Point at, std::string_view name);

}  // namespace lapwright::draw
