#include "placed.h"

#include <lapwright/base/trig.h>

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

std::string tag_of(const PlacedPiece& piece) {
  return "piece/" + piece.piece->mark + "/" + std::to_string(piece.placement->course) + "/" +
         piece.piece->junction;
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

geom::Vec3 from_other_side(const job::SlopeJoin& join, const job::Survey& survey, geom::Vec3 p) {
  struct Line {
    geom::Vec3 foot;
    geom::Vec3 along;
    geom::Vec3 into;  // the slope, square to the line
  };
  const auto line_of = [&](const job::JoinSide& side) {
    const bool left = side.hand == job::Hand::left;
    const geom::Vec3 along = geom::unit({side.drift, 1, 0});
    return Line{{left ? 0 : survey.slopes[side.slope].width.value.in_mm(), 0, 0},
                along,
                left ? geom::Vec3{along.y, -along.x, 0} : geom::Vec3{-along.y, along.x, 0}};
  };
  const Line here = line_of(join.line.sides[join.side]);
  const Line there = line_of(join.line.sides[1 - join.side]);
  const double cosine = cos(join.line.fold);
  const double sine = sin(join.line.fold) * (join.line.join->kind == job::JoinKind::valley ? 1 : -1);
  const geom::Vec3 out{0, 0, 1};
  const geom::Vec3 into_there = -cosine * here.into + sine * out;
  const geom::Vec3 out_there = cosine * out + sine * here.into;
  const geom::Vec3 d = p - there.foot;
  return here.foot + dot(d, there.along) * here.along + dot(d, there.into) * into_there + d.z * out_there;
}

std::vector<PlacedPiece> at_line(const job::SlopeJoin& join, const job::Slope& slope,
                                 const std::vector<PlacedPiece>& pieces) {
  const job::JoinSide& side = join.line.sides[join.side];
  const geom::Vec3 along = geom::unit({side.drift, 1, 0});
  const geom::Vec3 foot{side.hand == job::Hand::left ? 0 : slope.width.value.in_mm(), 0, 0};
  std::vector<PlacedPiece> out;
  for (const PlacedPiece& piece : pieces) {
    const bool of_a_junction =
        std::any_of(slope.junctions.begin(), slope.junctions.end(),
                    [&](const job::Junction& junction) { return junction.name == piece.piece->junction; });
    const geom::Vec3 d = middle_of(corners(piece, 0)) - foot;
    constexpr double kAlong = 300;  // mm: half of the widest valley and more
    if (!of_a_junction && length_of(d - dot(d, along) * along) < kAlong) out.push_back(piece);
  }
  return out;
}

}  // namespace lapwright::sheets
