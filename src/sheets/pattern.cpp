#include "pattern.h"

#include "words.h"

#include <algorithm>
#include <set>

namespace lapwright::sheets {

namespace {

draw::Point flat(geom::GridPoint p) {
  return {geom::to_length(p.x).in_mm(), geom::to_length(p.y).in_mm()};
}

draw::Contour contour(const geom::Ring& ring) {
  draw::Contour out;
  out.closed = true;
  for (const geom::GridPoint& p : ring) out.vertices.push_back({flat(p), 0});
  return out;
}

// What of the segment lies in the window (Liang and Barsky, 1984).
bool clip(draw::Point& a, draw::Point& b, const draw::Box& box) {
  const draw::Point d = b - a;
  double enter = 0;
  double leave = 1;
  const double p[4] = {-d.x, d.x, -d.y, d.y};
  const double q[4] = {a.x - box.left, box.right - a.x, a.y - box.bottom, box.top - a.y};
  for (int i = 0; i < 4; ++i) {
    if (p[i] == 0) {
      if (q[i] < 0) return false;
      continue;
    }
    const double t = q[i] / p[i];
    if (p[i] < 0) enter = std::max(enter, t);
    if (p[i] > 0) leave = std::min(leave, t);
  }
  if (enter >= leave) return false;
  const draw::Point start = a;
  a = start + d * enter;
  b = start + d * leave;
  return true;
}

}  // namespace

draw::Drawing pattern(const geom::Net& net) {
  draw::Drawing out;
  draw::Path sheet;
  sheet.stroke = draw::Stroke{draw::LineKind::cut, 0};
  sheet.contours.push_back(contour(net.outline));
  for (const geom::Ring& hole : net.holes) sheet.contours.push_back(contour(hole));
  out.add(std::move(sheet));
  for (const geom::Cut& cut : net.cuts) {
    out.add(
        draw::line(flat(cut.from), flat(cut.to), cut.worked ? draw::LineKind::axis : draw::LineKind::cut));
  }
  for (const geom::Fold& fold : net.folds) {
    out.add(draw::line(flat(fold.from), flat(fold.to), draw::LineKind::fold));
  }
  return out;
}

draw::Drawing cropped(const draw::Drawing& lines, const draw::Box& window) {
  draw::Drawing out;
  for (const draw::Item& item : lines.items()) {
    const auto* path = std::get_if<draw::Path>(&item);
    if (path == nullptr || !path->stroke) continue;
    for (const draw::Contour& contour : path->contours) {
      const std::size_t n = contour.vertices.size();
      for (std::size_t i = 0; i + (contour.closed ? 0 : 1) < n; ++i) {
        draw::Point a = contour.vertices[i].at;
        draw::Point b = contour.vertices[(i + 1) % n].at;
        if (clip(a, b, window)) out.add(draw::line(a, b, path->stroke->kind));
      }
    }
  }
  return out;
}

std::vector<NamedDrawing> patterns(const Sources& sources) {
  std::vector<NamedDrawing> out;
  std::set<std::string> seen;
  for (const job::Piece& piece : sources.plan.pieces) {
    if (piece.wrong || !seen.insert(piece.mark).second) continue;
    out.push_back({"pattern-" + file_stem(piece.mark), piece.mark, pattern(piece.net)});
  }
  return out;
}

}  // namespace lapwright::sheets
