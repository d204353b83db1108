#include "wall.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>

#include <algorithm>

namespace lapwright::sheets {

namespace {

const job::SetOut* set_out_of(const job::Plan& plan, std::string_view slope) {
  for (const job::SetOut& out : plan.set_out) {
    if (out.slope == slope) return &out;
  }
  return nullptr;
}

void place(const job::Piece& piece, Wall& wall) {
  auto panels = geom::split_into_panels(piece.net, piece.base_point);
  if (!panels) return;  // the planner's own tests hold every net sound
  for (const job::Placement& placement : piece.placements) {
    PlacedPiece placed{&piece, &placement, *panels, geom::fold_panels(piece.net, *panels, placement.frame)};
    (piece.kind == "soaker" ? wall.soakers : wall.flashings).push_back(std::move(placed));
  }
}

void read_joints(Wall& wall) {
  for (const PlacedPiece& placed : wall.flashings) {
    if (placed.piece->kind != "step-flashing") continue;
    for (const geom::Fold& fold : placed.piece->net.folds) {
      const geom::Vec3 p = placed.frames.front().at(geom::to_length(fold.from.x).in_mm(),
                                                    geom::to_length(fold.from.y).in_mm());
      wall.joints.push_back(wall.at(p).y);
    }
  }
  std::sort(wall.joints.begin(), wall.joints.end());
  const auto same = [](double a, double b) { return b - a < tolerance::kHandCut.in_mm(); };
  wall.joints.erase(std::unique(wall.joints.begin(), wall.joints.end(), same), wall.joints.end());
}

}  // namespace

draw::Point Wall::at(double s, double n) const {
  const double a = s - from;
  const double b = n - face;
  return {side * (a * cosine - b * sine), a * sine + b * cosine};
}

std::vector<Wall> walls_of(const Sources& sources) {
  std::vector<Wall> walls;
  for (const job::Slope& slope : sources.survey.slopes) {
    for (const job::Junction& junction : slope.junctions) {
      if (junction.kind != job::JunctionKind::side) continue;
      Wall wall;
      wall.slope = &slope;
      wall.junction = &junction;
      wall.set_out = set_out_of(sources.plan, slope.name);
      wall.sine = sin(slope.pitch.value);
      wall.cosine = cos(slope.pitch.value);
      wall.side = junction.hand == job::Hand::left ? 1 : -1;
      wall.from = junction.from.in_mm();
      wall.to = junction.to.value_or(slope.rafter.value).in_mm();
      wall.face = (slope.covering.thickness.most() + slope.covering.camber.most()).in_mm();
      wall.rows_thick = wall.face;
      for (const job::Piece& piece : sources.plan.pieces) {
        if (piece.slope == slope.name && piece.junction == junction.name) place(piece, wall);
      }
      if (wall.set_out == nullptr || (wall.soakers.empty() && wall.flashings.empty())) continue;
      const auto lower_first = [](const PlacedPiece& a, const PlacedPiece& b) {
        return stretch_of(a).low < stretch_of(b).low;
      };
      std::stable_sort(wall.soakers.begin(), wall.soakers.end(), lower_first);
      std::stable_sort(wall.flashings.begin(), wall.flashings.end(), lower_first);
      read_joints(wall);
      walls.push_back(std::move(wall));
    }
  }
  return walls;
}

std::vector<geom::Vec3> corners(const PlacedPiece& piece, std::size_t panel) {
  std::vector<geom::Vec3> out;
  for (const geom::GridPoint& p : piece.panels[panel].ring) {
    out.push_back(piece.frames[panel].at(geom::to_length(p.x).in_mm(), geom::to_length(p.y).in_mm()));
  }
  return out;
}

Stretch stretch_of(const PlacedPiece& piece) {
  const std::vector<geom::Vec3> points = corners(piece, 0);
  Stretch out{points.front().y, points.front().y};
  for (const geom::Vec3& p : points) out = {std::min(out.low, p.y), std::max(out.high, p.y)};
  return out;
}

double figure_or(const job::Piece& piece, std::string_view name, double otherwise) {
  for (const job::Figure& figure : piece.figures) {
    if (figure.name == name) return figure.value;
  }
  return otherwise;
}

}  // namespace lapwright::sheets
