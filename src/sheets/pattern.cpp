#include "pattern.h"

#include "words.h"

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

}  // namespace

draw::Drawing pattern(const geom::Net& net) {
  draw::Drawing out;
  draw::Path sheet;
  sheet.stroke = draw::Stroke{draw::LineKind::cut, 0};
  sheet.contours.push_back(contour(net.outline));
  for (const geom::Ring& hole : net.holes) sheet.contours.push_back(contour(hole));
  out.add(std::move(sheet));
  for (const geom::Cut& cut : net.cuts)
    out.add(draw::line(flat(cut.from), flat(cut.to), draw::LineKind::cut));
  for (const geom::Fold& fold : net.folds) {
    out.add(draw::line(flat(fold.from), flat(fold.to), draw::LineKind::fold));
  }
  return out;
}

std::vector<NamedDrawing> patterns(const Sources& sources) {
  std::vector<NamedDrawing> out;
  std::set<std::string> seen;
  for (const job::Piece& piece : sources.plan.pieces) {
    if (!seen.insert(piece.mark).second) continue;
    out.push_back({"pattern-" + file_stem(piece.mark), piece.mark, pattern(piece.net)});
  }
  return out;
}

}  // namespace lapwright::sheets
