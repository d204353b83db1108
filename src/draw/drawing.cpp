#include <lapwright/draw/drawing.h>

#include "plane.h"

#include <lapwright/draw/expand.h>

#include <algorithm>
#include <cmath>

namespace lapwright::draw {

void Box::take(Point p) {
  if (empty()) {
    *this = {p.x, p.y, p.x, p.y};
    return;
  }
  left = std::min(left, p.x);
  right = std::max(right, p.x);
  bottom = std::min(bottom, p.y);
  top = std::max(top, p.y);
}

void Box::take(const Box& other) {
  if (other.empty()) return;
  take(Point{other.left, other.bottom});
  take(Point{other.right, other.top});
}

Reading readable(double rotation) {
  double turned = rotation - 360.0 * std::floor(rotation / 360.0);  // [0, 360)
  // A hair of noise at the vertical must not turn a text round.
  constexpr double kHair = 1e-6;
  if (turned <= 90.0 + kHair) return {turned, false};
  if (turned <= 270.0 + kHair) return {turned - 180.0, true};
  return {turned - 360.0, false};
}

Path polyline(const std::vector<Point>& points, LineKind kind) {
  Path path;
  Contour contour;
  for (const Point p : points) contour.vertices.push_back({p, 0});
  path.contours.push_back(std::move(contour));
  path.stroke = Stroke{kind, 0};
  return path;
}

Path polygon(const std::vector<Point>& points, LineKind kind) {
  Path path = polyline(points, kind);
  path.contours[0].closed = true;
  return path;
}

Path line(Point a, Point b, LineKind kind) {
  return polyline({a, b}, kind);
}

Path rectangle(double left, double bottom, double width, double height, LineKind kind) {
  const double right = left + width;
  const double top = bottom + height;
  return polygon({{left, bottom}, {right, bottom}, {right, top}, {left, top}}, kind);
}

Path circle(Point centre, double radius, LineKind kind) {
  Path path;
  path.contours.push_back({{{{centre.x - radius, centre.y}, 1}, {{centre.x + radius, centre.y}, 1}}, true});
  path.stroke = Stroke{kind, 0};
  return path;
}

Path arc(Point centre, double radius, double start, double sweep, LineKind kind) {
  if (sweep >= 360 || sweep <= -360) return circle(centre, radius, kind);
  // In two halves, so that no bulge runs away as the sweep nears a full turn.
  const double bulge = tan_deg(sweep / 8);
  Path path;
  Contour contour;
  for (int half = 0; half < 3; ++half) {
    contour.vertices.push_back(
        {centre + direction(start + sweep * half / 2) * radius, half < 2 ? bulge : 0.0});
  }
  path.contours.push_back(std::move(contour));
  path.stroke = Stroke{kind, 0};
  return path;
}

Point Placement::apply(Point p) const {
  if (mirrored) p.x = -p.x;
  p = p * scale;
  if (rotation != 0) {
    const Point d = direction(rotation);
    p = {p.x * d.x - p.y * d.y, p.x * d.y + p.y * d.x};
  }
  return p + move;
}

Drawing& Drawing::add(Path path) {
  items_.emplace_back(std::move(path));
  return *this;
}
Drawing& Drawing::add(Text text) {
  items_.emplace_back(std::move(text));
  return *this;
}
Drawing& Drawing::add(Dimension dimension) {
  items_.emplace_back(std::move(dimension));
  return *this;
}
Drawing& Drawing::add(Chain chain) {
  items_.emplace_back(std::move(chain));
  return *this;
}

namespace {

void place(Path& path, const Placement& placement) {
  for (Contour& contour : path.contours) {
    for (Vertex& vertex : contour.vertices) {
      vertex.at = placement.apply(vertex.at);
      if (placement.mirrored) vertex.bulge = -vertex.bulge;
    }
  }
}

void place(Text& text, const Placement& placement) {
  text.at = placement.apply(text.at);
  if (placement.rotation == 0 && !placement.mirrored) return;
  if (placement.mirrored) {
    text.rotation = -text.rotation;
    text.anchor = other_end(text.anchor);
  }
  const Reading reading = readable(text.rotation + placement.rotation);
  text.rotation = reading.rotation;
  if (reading.reversed) text.anchor = other_end(text.anchor);
}

void place(Dimension& dimension, const Placement& placement) {
  dimension.from = placement.apply(dimension.from);
  dimension.to = placement.apply(dimension.to);
  if (placement.mirrored) dimension.offset = -dimension.offset;
}

void place(Chain& chain, const Placement& placement) {
  chain.zero = placement.apply(chain.zero);
  chain.towards = placement.apply(chain.towards);
  for (Chain::Stop& stop : chain.stops) stop.at = placement.apply(stop.at);
  if (placement.mirrored) chain.offset = -chain.offset;
}

}  // namespace

Drawing& Drawing::add(const Drawing& other, const Placement& placement, std::string_view tag) {
  const std::vector<Item> copies = other.items_;  // `other` may be this very drawing
  for (const Item& item : copies) {
    Item copy = item;
    std::visit(
        [&](auto& thing) {
          place(thing, placement);
          if (thing.tag.empty()) thing.tag = tag;
        },
        copy);
    items_.push_back(std::move(copy));
  }
  return *this;
}

Box extents_of_points(const Drawing& drawing) {
  Box box;
  for (const Item& item : drawing.items()) {
    if (const auto* path = std::get_if<Path>(&item)) {
      for (const Contour& contour : path->contours) {
        for (const Point p : flattened(contour)) box.take(p);
      }
    } else if (const auto* text = std::get_if<Text>(&item)) {
      box.take(text->at);
    } else if (const auto* dimension = std::get_if<Dimension>(&item)) {
      box.take(dimension->from);
      box.take(dimension->to);
    } else if (const auto* chain = std::get_if<Chain>(&item)) {
      box.take(chain->zero);
      for (const Chain::Stop& stop : chain->stops) box.take(stop.at);
    }
  }
  return box;
}

Box extents(const Drawing& drawing) {
  Box box;
  for (const Plain& plain : expand(drawing)) {
    if (const auto* text = std::get_if<PlainText>(&plain)) {
      box.take(text->box());
      continue;
    }
    const PlainPath& path = std::get<PlainPath>(plain);
    const double half = path.weight / 2;
    for (const Contour& contour : path.contours) {
      for (const Point p : flattened(contour)) box.take(Box{p.x - half, p.y - half, p.x + half, p.y + half});
    }
  }
  return box;
}

}  // namespace lapwright::draw
