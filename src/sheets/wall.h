// A side of masonry that runs up the slope (a side wall, a stack's side) as the drawings need it, read back
// from the plan: its pieces folded and in place, and the heights of the bed joints that its steps turn into.
#pragma once

#include "placed.h"

#include <lapwright/draw/drawing.h>

#include <string>
#include <vector>

namespace lapwright::sheets {

struct Wall {
  const job::Slope* slope = nullptr;
  job::Junction junction;
  std::string face_name;  // of the junction's several: "left side"
  const job::SetOut* set_out = nullptr;
  std::vector<PlacedPiece> soakers;    // bottom up
  std::vector<PlacedPiece> flashings;  // bottom up: step and cover flashings
  std::vector<PlacedPiece> others;     // of any other kind
  std::vector<double> joints;  // heights of the joints stepped into, upright above the roof at the lower end
  double sine = 0;
  double cosine = 1;
  double side =
      1;  // +1: the roof rises to the right as one faces the wall (a left-hand wall); −1: to the left
  double from = 0;  // up the slope
  double to = 0;
  double face = 0;        // n of the finished face of the units
  double rows_thick = 0;  // of a unit as drawn: thickness and camber

  // A place of the slope as one faces the wall from the roof, mm: the origin is on the roof's finished face
  // at the wall's lower end, y is upright.
  draw::Point at(double s, double n) const;
  draw::Point at(geom::Vec3 p) const { return at(p.y, p.z); }
};

// Every such face with soakers or flashings, in the survey's order.
std::vector<Wall> walls_of(const Sources& sources);

// Where a placed piece begins and ends up the slope, its base panel only.
struct Stretch {
  double low = 0;
  double high = 0;
};
Stretch stretch_of(const PlacedPiece& piece);

}  // namespace lapwright::sheets
