#include "roof_seen.h"

#include "solid.h"

#include <lapwright/job/join.h>

#include <algorithm>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;
using geom::Vec3;

constexpr double kFine = 0.09;     // the lines of units, mm of paper
constexpr double kTooDense = 0.9;  // lines nearer than this run together on paper

double lowest(const Unit& unit) {
  double low = 1e9;
  for (const Point& p : unit.outline) low = std::min(low, p.y);
  return low;
}

}  // namespace

RoofSeen::RoofSeen(const Sources& sources, const job::Slope& slope)
    : slope_(slope),
      junctions_(junctions_on(sources.survey, slope)),
      pieces_(placed_on(sources.plan, slope.name)) {
  for (std::size_t i = 0; i < sources.survey.slopes.size(); ++i) {
    if (sources.survey.slopes[i].name == slope.name) joins_ = job::joins_of(sources.survey, i);
  }
  const double face = finished_face(slope_);
  for (const PlacedPiece& piece : pieces_) {
    for (std::size_t i = 0; i < piece.panels.size(); ++i) {
      SeenPanel seen{&piece, corners(piece, i), piece.frames[i].normal().z, 0, false};
      const Vec3 middle = middle_of(seen.ring);
      seen.height = middle.z;
      seen.under = middle.z < face - 0.5;
      panels_.push_back(std::move(seen));
    }
  }
  see_guests(sources);
  std::stable_sort(panels_.begin(), panels_.end(),
                   [](const SeenPanel& a, const SeenPanel& b) { return a.height < b.height; });
}

void RoofSeen::see_guests(const Sources& sources) {
  const double face = finished_face(slope_);
  // What lines a valley or hip is given to one of its slopes and lies on both.
  for (const job::SlopeJoin& join : joins_) {
    if (join.line.join->kind == job::JoinKind::ridge) continue;
    const job::Slope& other = sources.survey.slopes[join.line.sides[1 - join.side].slope];
    const job::SlopeJoin back{join.line, 1 - join.side};
    for (PlacedPiece& piece : at_line(back, other, placed_on(sources.plan, other.name))) {
      guests_.push_back(std::move(piece));
    }
  }
  for (const PlacedPiece& piece : guests_) {
    for (const job::SlopeJoin& join : joins_) {
      const job::Slope& other = sources.survey.slopes[join.line.sides[1 - join.side].slope];
      if (join.line.join->kind == job::JoinKind::ridge || other.name != piece.piece->slope) continue;
      for (std::size_t i = 0; i < piece.panels.size(); ++i) {
        SeenPanel seen{&piece, corners(piece, i), 0, 0, false};
        for (Vec3& p : seen.ring) p = from_other_side(join, sources.survey, p);
        const Vec3 zero = from_other_side(join, sources.survey, {});
        seen.facing = (from_other_side(join, sources.survey, piece.frames[i].normal()) - zero).z;
        seen.height = middle_of(seen.ring).z;
        seen.under = seen.height < face - 0.5;
        panels_.push_back(std::move(seen));
      }
      break;
    }
  }
}

std::vector<const PlacedPiece*> RoofSeen::placements_of(const job::Piece& piece) const {
  std::vector<const PlacedPiece*> all;
  for (const std::vector<PlacedPiece>* of : {&pieces_, &guests_}) {
    for (const PlacedPiece& one : *of) {
      if (one.piece == &piece) all.push_back(&one);
    }
  }
  return all;
}

std::vector<Point> RoofSeen::outline() const {
  const double width = slope_.width.value.in_mm();
  const double rafter = slope_.rafter.value.in_mm();
  std::vector<Point> left{{0, 0}};
  std::vector<Point> right{{width, 0}};
  for (const job::SlopeJoin& join : joins_) {
    const job::JoinSide& side = join.line.sides[join.side];
    if (join.line.join->kind == job::JoinKind::ridge) continue;
    const double run = side.run.in_mm();
    const double end = side.hand == job::Hand::left ? 0 : width;
    (side.hand == job::Hand::left ? left : right).push_back({end + side.drift * run, run});
  }
  for (std::vector<Point>* end : {&left, &right}) {
    if (end->back().y < rafter - 1) end->push_back({end->back().x, rafter});
  }
  std::vector<Point> out = right;
  // Two hips that meet in a point share it.
  std::reverse(left.begin(), left.end());
  for (const Point& p : left) {
    const Point d = p - out.back();
    if (d.x * d.x + d.y * d.y > 1) out.push_back(p);
  }
  return out;
}

std::optional<draw::Box> RoofSeen::footprint(const job::Junction& junction) const {
  draw::Box box;
  for (const job::Face& face : straight_faces(slope_, junction)) {
    box.take(Point{face.from.u.in_mm(), face.from.s.in_mm()});
    box.take(Point{face.to.u.in_mm(), face.to.s.in_mm()});
  }
  if (box.empty()) return std::nullopt;
  return box;
}

std::vector<Point> kept_on_paper(const std::vector<Point>& ring, const std::optional<draw::Box>& window,
                                 double scale) {
  if (!window) return ring;
  return kept_in(ring,
                 {window->left * scale, window->bottom * scale, window->right * scale, window->top * scale});
}

void draw_units(const Sources& sources, const job::Slope& slope, double scale,
                const std::optional<draw::Box>& window, draw::Drawing& out) {
  const job::SetOut* set_out = set_out_of(sources.plan, slope.name);
  if (set_out == nullptr) return;
  const draw::Box all = window.value_or(draw::Box{-1e6, -1e6, 1e6, 1e6});
  const std::vector<Unit> units = units_of(sources.plan, slope, all);
  const double gauge = set_out->gauge.in_mm() * scale;
  const double wide = slope.covering.width.value.in_mm() * scale;
  const bool each = gauge >= kTooDense && wide >= 2 * kTooDense;
  const auto every = static_cast<std::size_t>(gauge > 0 ? std::max(1.0, kTooDense / gauge + 0.999) : 1.0);
  std::size_t row = 0;
  for (std::size_t i = 0; i < units.size(); ++row) {
    std::size_t end = i;
    draw::Path path;
    path.stroke = draw::Stroke{LineKind::thin, kFine};
    draw::Path ground;
    ground.stroke.reset();
    ground.fill = draw::Fill::white();
    draw::Box box;
    const double tail = lowest(units[i]);
    while (end < units.size() && lowest(units[end]) == tail && units[end].tail == units[i].tail) {
      draw::Contour contour;
      contour.closed = true;
      std::vector<Point> ring;
      for (const Point& p : units[end].outline) ring.push_back(p * scale);
      const std::size_t corners_of_it = ring.size();
      ring = kept_on_paper(ring, window, scale);
      ++end;
      if (ring.empty()) continue;
      for (const Point& p : ring) {
        contour.vertices.push_back({p, 0});
        box.take(p);
      }
      ground.contours.push_back(contour);
      if (each) {
        // The joint between two units is one line: a unit shows its tail and its left side, a cut one all
        // round.
        std::vector<draw::Vertex>& v = contour.vertices;
        draw::Box own;
        for (const draw::Vertex& vertex : v) own.take(vertex.at);
        const bool straight =
            corners_of_it == 4 && std::all_of(v.begin(), v.end(), [&](const draw::Vertex& vertex) {
              return (vertex.at.x == own.left || vertex.at.x == own.right) &&
                     (vertex.at.y == own.bottom || vertex.at.y == own.top);
            });
        if (straight) {
          contour.closed = false;
          v = {{{own.left, own.top}, 0}, {{own.left, own.bottom}, 0}, {{own.right, own.bottom}, 0}};
        }
        path.contours.push_back(std::move(contour));
      }
    }
    const std::string tag = "course/" + std::to_string(units[i].course);
    ground.tag = tag;
    path.tag = tag;
    out.add(std::move(ground));
    if (each) {
      path.layer = draw::Layer::thin;
      out.add(std::move(path));
    } else if (row % every == 0) {
      draw::Path line = draw::line({box.left, box.bottom}, {box.right, box.bottom}, LineKind::thin);
      line.stroke = draw::Stroke{LineKind::thin, kFine};
      line.tag = tag;
      out.add(std::move(line));
    }
    i = end;
  }
}

}  // namespace lapwright::sheets
