// A side wall as the drawings need it, read back from the plan: its pieces folded and in place, and the
// heights of the bed joints that its steps turn into.
#pragma once

#include <lapwright/draw/drawing.h>
#include <lapwright/geom/net.h>
#include <lapwright/sheets/sheets.h>

#include <string>
#include <vector>

namespace lapwright::sheets {

struct PlacedPiece {
  const job::Piece* piece = nullptr;
  const job::Placement* placement = nullptr;
  std::vector<geom::Panel> panels;
  std::vector<geom::Frame> frames;  // of the panels, folded
};

struct Wall {
  const job::Slope* slope = nullptr;
  const job::Junction* junction = nullptr;
  const job::SetOut* set_out = nullptr;
  std::vector<PlacedPiece> soakers;    // bottom up
  std::vector<PlacedPiece> flashings;  // bottom up
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

// Every junction with pieces of its own, in the survey's order.
std::vector<Wall> walls_of(const Sources& sources);

// Corners of a panel in space.
std::vector<geom::Vec3> corners(const PlacedPiece& piece, std::size_t panel);

// Where a placed piece begins and ends up the slope, its base panel only.
struct Stretch {
  double low = 0;
  double high = 0;
};
Stretch stretch_of(const PlacedPiece& piece);

double figure_or(const job::Piece& piece, std::string_view name, double otherwise);

}  // namespace lapwright::sheets
