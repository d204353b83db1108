// Lead cut through by a plane: the lines that a section draws.
#pragma once

#include "solid.h"

#include <vector>

namespace lapwright::sheets {

// A panel of a piece in space, in the frame of the slope that the section is drawn on.
struct Sheet {
  const job::Piece* piece = nullptr;
  std::size_t placement = 0;                   // panels of one placement belong together
  std::vector<std::vector<geom::Vec3>> rings;  // its edge, then its holes
  geom::Vec3 normal;                           // outward
};
std::vector<Sheet> sheets_of(const std::vector<PlacedPiece>& pieces);

// One placement as the plane cuts it: straight parts, end to end, mm.
struct LeadLine {
  const job::Piece* piece = nullptr;
  struct Part {
    draw::Point a;
    draw::Point b;
    draw::Point outward;  // unit
    double length() const;
  };
  std::vector<Part> parts;
  int over = 0;  // how many sheets it lies on: it is drawn that much further out
};

// In the order of the pieces; a sheet that lies on one named before it is over that.
std::vector<LeadLine> cut_lead(const std::vector<Sheet>& sheets, const View& view);

// The line as it is drawn, each part moved `out` to its weather side and mitred with its neighbour: one row
// of points for each run of parts that hang together.
std::vector<std::vector<draw::Point>> drawn(const LeadLine& line, double out);

}  // namespace lapwright::sheets
