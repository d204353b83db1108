// Where a net comes to lie on its roll.
#pragma once

#include <lapwright/draw/drawing.h>
#include <lapwright/geom/polygon.h>
#include <lapwright/job/cutting.h>

#include <cstdint>

namespace lapwright::sheets {

// A point of a net whose bounds are `net`, µm, as it lies on the roll: mm, x along it, y across.
inline draw::Point on_roll(const geom::Box& net, const job::CutPiece& piece, draw::Point p) {
  const std::int64_t whole = (net.height() + 999) / 1000;
  const auto width = static_cast<double>(whole);
  double x = (p.x - static_cast<double>(net.low.x)) / 1000;
  double y = (p.y - static_cast<double>(net.low.y)) / 1000;
  if (piece.reversed) {
    x = static_cast<double>(net.width()) / 1000 - x;
    y = static_cast<double>(net.height()) / 1000 - y;
  }
  if (piece.turned) {
    const double before = x;
    x = width - y;
    y = before;
  }
  return {piece.x.in_mm() + x, piece.y.in_mm() + y};
}

inline draw::Point on_roll(const geom::Box& net, const job::CutPiece& piece, geom::GridPoint p) {
  return on_roll(net, piece, draw::Point{static_cast<double>(p.x), static_cast<double>(p.y)});
}

// The middle of the longest edge: of a stepped piece its straight side.
inline draw::Point straight_side(const geom::Ring& outline, const job::CutPiece& piece) {
  const geom::Box net = geom::bounds(outline);
  double longest = -1;
  draw::Point best;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const geom::GridPoint a = outline[i];
    const geom::GridPoint b = outline[(i + 1) % outline.size()];
    const auto dx = static_cast<double>(b.x - a.x);
    const auto dy = static_cast<double>(b.y - a.y);
    if (dx * dx + dy * dy <= longest) continue;
    longest = dx * dx + dy * dy;
    best = on_roll(net, piece,
                   draw::Point{static_cast<double>(a.x) + dx / 2, static_cast<double>(a.y) + dy / 2});
  }
  return best;
}

}  // namespace lapwright::sheets
