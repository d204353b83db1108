#include "placed.h"

#include <algorithm>

namespace lapwright::sheets {

std::vector<PlacedPiece> in_place(const job::Piece& piece) {
  std::vector<PlacedPiece> out;
  auto panels = geom::split_into_panels(piece.net, piece.base_point);
  if (!panels) return out;
  for (const job::Placement& placement : piece.placements) {
    out.push_back({&piece, &placement, *panels, geom::fold_panels(piece.net, *panels, placement.frame)});
  }
  return out;
}

std::vector<PlacedPiece> placed_on(const job::Plan& plan, std::string_view slope) {
  std::vector<PlacedPiece> out;
  for (const job::Piece& piece : plan.pieces) {
    if (piece.slope != slope) continue;
    for (PlacedPiece& one : in_place(piece)) out.push_back(std::move(one));
  }
  return out;
}

std::vector<geom::Vec3> in_space(const geom::Frame& frame, const geom::Ring& ring) {
  std::vector<geom::Vec3> out;
  for (const geom::GridPoint& p : ring) {
    out.push_back(frame.at(geom::to_length(p.x).in_mm(), geom::to_length(p.y).in_mm()));
  }
  return out;
}

std::vector<geom::Vec3> corners(const PlacedPiece& piece, std::size_t panel) {
  return in_space(piece.frames[panel], piece.panels[panel].ring);
}

geom::Vec3 middle_of(const std::vector<geom::Vec3>& points) {
  geom::Vec3 sum;
  for (const geom::Vec3& p : points) sum = sum + p;
  return points.empty() ? sum : (1.0 / static_cast<double>(points.size())) * sum;
}

double figure_or(const job::Piece& piece, std::string_view name, double otherwise) {
  for (const job::Figure& figure : piece.figures) {
    if (figure.name == name) return figure.value;
  }
  return otherwise;
}

const job::SetOut* set_out_of(const job::Plan& plan, std::string_view slope) {
  for (const job::SetOut& out : plan.set_out) {
    if (out.slope == slope) return &out;
  }
  return nullptr;
}

const job::Slope* slope_of(const job::Survey& survey, std::string_view name) {
  for (const job::Slope& slope : survey.slopes) {
    if (slope.name == name) return &slope;
  }
  return nullptr;
}

double finished_face(const job::Slope& slope) {
  return (slope.covering.thickness.most() + slope.covering.camber.most()).in_mm();
}

std::vector<job::Junction> junctions_on(const job::Survey& survey, const job::Slope& slope) {
  std::vector<job::Junction> out = slope.junctions;
  for (job::Junction& part : job::parts_from_across(survey, slope)) out.push_back(std::move(part));
  return out;
}

std::vector<job::Face> straight_faces(const job::Slope& slope, const job::Junction& junction) {
  std::vector<job::Face> out = job::faces_of(slope, junction);
  std::erase_if(out, [](const job::Face& face) { return face.kind == job::FaceKind::round; });
  return out;
}

}  // namespace lapwright::sheets
