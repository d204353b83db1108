// Pieces in their places: every net of the plan folded where it lies, with nothing worked out again.
#pragma once

#include <lapwright/geom/net.h>
#include <lapwright/job/face.h>
#include <lapwright/job/join.h>
#include <lapwright/sheets/sheets.h>

#include <string>
#include <vector>

namespace lapwright::sheets {

struct PlacedPiece {
  const job::Piece* piece = nullptr;
  const job::Placement* placement = nullptr;
  std::vector<geom::Panel> panels;
  std::vector<geom::Frame> frames;  // of the panels, folded, in the slope's (u, s, n)
};

// One a placement, in the plan's order; a piece whose net is unsound gives none (the planner's own tests hold
// every net sound).
std::vector<PlacedPiece> in_place(const job::Piece& piece);
// Every piece placed on a slope.
std::vector<PlacedPiece> placed_on(const job::Plan& plan, std::string_view slope);

// Corners of a panel in space.
std::vector<geom::Vec3> corners(const PlacedPiece& piece, std::size_t panel);
std::vector<geom::Vec3> in_space(const geom::Frame& frame, const geom::Ring& ring);
// The middle of those.
geom::Vec3 middle_of(const std::vector<geom::Vec3>& points);

// What a drawing calls a placed piece, for a page to find it: "piece/S1/3/house wall". The course is −2 where
// it is tied to none.
std::string tag_of(const PlacedPiece& piece);

double figure_or(const job::Piece& piece, std::string_view name, double otherwise);

const job::SetOut* set_out_of(const job::Plan& plan, std::string_view slope);
const job::Slope* slope_of(const job::Survey& survey, std::string_view name);
// n of the finished face of the units: as thick and as cambered as any of them.
double finished_face(const job::Slope& slope);

// The junctions of a slope as its drawings see them: its own, and what stands through the ridge from another.
std::vector<job::Junction> junctions_on(const job::Survey& survey, const job::Slope& slope);

// A point of the slope on the other side of a valley or hip, in this slope's frame.
geom::Vec3 from_other_side(const job::SlopeJoin& join, const job::Survey& survey, geom::Vec3 p);
// Of pieces placed on a slope, those that lie along its valley or hip and belong to no junction of its own.
std::vector<PlacedPiece> at_line(const job::SlopeJoin& join, const job::Slope& slope,
                                 const std::vector<PlacedPiece>& pieces);

// Its faces with a foot line: a pipe has none.
std::vector<job::Face> straight_faces(const job::Slope& slope, const job::Junction& junction);

}  // namespace lapwright::sheets
