// What a roof view shows of a slope: where every panel of lead lies to the eye, the slope's own outline, and
// the units that cover it.
#pragma once

#include "placed.h"

#include <lapwright/draw/drawing.h>

#include <optional>
#include <vector>

namespace lapwright::sheets {

constexpr double kFacing = 0.05;  // a panel that faces the eye by less is seen on edge

struct SeenPanel {
  const PlacedPiece* piece = nullptr;
  std::vector<geom::Vec3> ring;
  double facing = 0;   // 1: lies flat to the eye; 0: on edge; below: its back is turned
  double height = 0;   // n of its middle
  bool under = false;  // below the face of the units
};

// Everything on one slope; it holds what its panels point to, so it stays where it was made.
class RoofSeen {
 public:
  RoofSeen(const Sources& sources, const job::Slope& slope);
  RoofSeen(const RoofSeen&) = delete;
  RoofSeen& operator=(const RoofSeen&) = delete;

  const std::vector<job::Junction>& junctions() const { return junctions_; }
  const std::vector<job::SlopeJoin>& joins() const { return joins_; }
  const std::vector<SeenPanel>& panels() const { return panels_; }  // the lowest first
  std::vector<const PlacedPiece*> placements_of(const job::Piece& piece) const;

  // The slope's corners, eaves first, anticlockwise; a valley or hip slants its end.
  std::vector<draw::Point> outline() const;
  // Of what stands on it, in (u, s).
  std::optional<draw::Box> footprint(const job::Junction& junction) const;

 private:
  void see_guests(const Sources& sources);

  const job::Slope& slope_;
  std::vector<job::Junction> junctions_;
  std::vector<PlacedPiece> pieces_;
  std::vector<job::SlopeJoin> joins_;
  std::vector<PlacedPiece> guests_;  // of the slopes beyond a valley or hip
  std::vector<SeenPanel> panels_;
};

// The part of a ring on paper that a window in (u, s) shows; all without one.
std::vector<draw::Point> kept_on_paper(const std::vector<draw::Point>& ring,
                                       const std::optional<draw::Box>& window, double scale);

// Units as far as they are shown; where they would run together on paper, only some of their courses.
void draw_units(const Sources& sources, const job::Slope& slope, double scale,
                const std::optional<draw::Box>& window, draw::Drawing& out);

}  // namespace lapwright::sheets
