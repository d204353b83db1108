#include <lapwright/draw/symbols.h>

#include "plane.h"

#include <lapwright/base/numbers.h>
#include <lapwright/draw/font.h>

#include <algorithm>
#include <string>

namespace lapwright::draw {
namespace {

Text words(std::string_view text, Point at, double size, Anchor anchor = Anchor::middle) {
  Text t;
  t.text = text;
  t.at = at;
  t.size = size;
  t.anchor = anchor;
  return t;
}

}  // namespace

double ring_radius(std::string_view mark, double size) {
  const double half_width = text_width(mark, size, Weight::bold) / 2;
  const double half_height = cap_height(size) / 2;
  return std::max(hypotenuse(half_width, half_height) + size * 0.18, size * 0.75);
}

Drawing ringed_mark(Point at, std::string_view mark, double size) {
  Drawing out;
  Path ring = circle(at, ring_radius(mark, size), LineKind::heavy);
  ring.layer = Layer::mark;
  ring.fill = Fill::white();
  out.add(std::move(ring));
  Text text = words(mark, at, size);
  text.seat = Seat::middle;
  text.weight = Weight::bold;
  text.layer = Layer::mark;
  out.add(std::move(text));
  return out;
}

Drawing arrow(Point from, Point to, LineKind kind, double head) {
  const Point d = unit(to - from);
  const Point base = to - d * head;
  const Point side = left_of(d) * (head * 0.32);
  Drawing out;
  out.add(line(from, base, kind));
  Path tip = polygon({to, base + side, base - side}, kind);
  tip.stroke.reset();
  tip.fill = Fill::black();
  tip.layer = layer_of(kind);
  out.add(std::move(tip));
  return out;
}

Drawing leader(Point at, Point to, std::string_view text, double size) {
  Drawing out;
  Path dot_path = circle(at, 0.5, LineKind::thin);
  dot_path.fill = Fill::black();
  out.add(std::move(dot_path));
  out.add(line(at, to, LineKind::thin));
  const bool right = to.x >= at.x;
  Text t = words(text, to + Point{right ? 1.0 : -1.0, 0}, size, right ? Anchor::start : Anchor::end);
  t.seat = Seat::middle;
  t.on_white = true;
  out.add(std::move(t));
  return out;
}

Drawing check_bar(Point at) {
  Drawing out;
  const double y = at.y;
  for (int field = 0; field < 10; ++field) {
    Path box = rectangle(at.x + 10 * field, y, 10, 2, LineKind::thin);
    box.fill = field % 2 == 0 ? Fill::black() : Fill::white();
    box.layer = Layer::mark;
    out.add(std::move(box));
  }
  Text t = words("100 mm: print at actual size, then measure this bar", at + Point{50, 3.4}, pt(8));
  t.layer = Layer::mark;
  out.add(std::move(t));
  return out;
}

Drawing scale_bar(Point at, double scale, double room) {
  Drawing out;
  if (!(scale > 0) || !(room > 0)) return out;
  double length = 1;  // mm of the real thing
  while (length * 10 * scale <= room) length *= 10;
  while (length * scale > room) length /= 10;
  if (length * 5 * scale <= room) {
    length *= 5;
  } else if (length * 2 * scale <= room) {
    length *= 2;
  }
  const double field = length * scale / 5;
  for (int i = 0; i < 5; ++i) {
    Path box = rectangle(at.x + field * i, at.y, field, 1.6, LineKind::thin);
    box.fill = i % 2 == 0 ? Fill::black() : Fill::white();
    box.layer = Layer::mark;
    out.add(std::move(box));
  }
  const bool metres = length >= 1000;
  Text zero = words("0", at + Point{0, 2.6}, pt(7));
  Text end = words(metres ? trimmed(length / 1000, 3) + " m" : trimmed(length, 3) + " mm",
                   at + Point{length * scale, 2.6}, pt(7));
  zero.layer = end.layer = Layer::mark;
  out.add(std::move(zero));
  out.add(std::move(end));
  return out;
}

Drawing match_mark(Point at, std::string_view name) {
  Drawing out;
  for (Path path : {circle(at, 2.5, LineKind::thin), line(at - Point{4, 0}, at + Point{4, 0}, LineKind::thin),
                    line(at - Point{0, 4}, at + Point{0, 4}, LineKind::thin)}) {
    path.layer = Layer::mark;
    out.add(std::move(path));
  }
  Text t = words(name, at + Point{3, 2.6}, pt(9), Anchor::start);
  t.weight = Weight::bold;
  t.layer = Layer::mark;
  out.add(std::move(t));
  return out;
}

}  // namespace lapwright::draw
