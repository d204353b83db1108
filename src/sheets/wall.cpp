#include "wall.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>

#include <algorithm>

namespace lapwright::sheets {

namespace {

void place(const job::Piece& piece, Wall& wall) {
  const bool flashing = piece.kind == "step-flashing" || piece.kind == "cover-flashing";
  for (PlacedPiece& one : in_place(piece)) {
    (piece.kind == "soaker" ? wall.soakers
     : flashing             ? wall.flashings
                            : wall.others)
        .push_back(std::move(one));
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
    for (const job::Junction& junction : junctions_on(sources.survey, slope)) {
      for (const job::Face& face : straight_faces(slope, junction)) {
        if (face.kind != job::FaceKind::side || face.lean != Angle{}) continue;
        Wall wall;
        wall.slope = &slope;
        wall.junction = junction;
        wall.face_name = face.name;
        wall.set_out = set_out_of(sources.plan, slope.name);
        wall.sine = sin(slope.pitch.value);
        wall.cosine = cos(slope.pitch.value);
        wall.side = face.hand == job::Hand::left ? 1 : -1;
        wall.from = face.from.s.in_mm();
        wall.to = face.to.s.in_mm();
        wall.face = finished_face(slope);
        wall.rows_thick = wall.face;
        for (const job::Piece& piece : sources.plan.pieces) {
          if (piece.slope == slope.name && piece.junction == junction.name && piece.face == face.name)
            place(piece, wall);
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
  }
  return walls;
}

Stretch stretch_of(const PlacedPiece& piece) {
  const std::vector<geom::Vec3> points = corners(piece, 0);
  Stretch out{points.front().y, points.front().y};
  for (const geom::Vec3& p : points) out = {std::min(out.low, p.y), std::max(out.high, p.y)};
  return out;
}

}  // namespace lapwright::sheets
