// A net as a planar graph: every edge of the outline and the holes, and every crease, split where they meet.
#pragma once

#include <lapwright/geom/net.h>

#include <string>

namespace lapwright::geom {

enum class LineKind : std::uint8_t { outline, hole, fold, cut };

// One line between two nodes with none in between. `index` is the net's edge, hole, fold or cut that it is
// part of.
struct Piece {
  std::size_t from = 0;
  std::size_t to = 0;
  LineKind kind = LineKind::outline;
  std::size_t index = 0;
};

struct Subdivision {
  std::vector<GridPoint> nodes;
  std::vector<Piece> pieces;
};

// REQUIRES N1. Faults when N2 does not hold, except for creases that run outside the sheet or in a hole: the
// faces tell those.
Result<Subdivision> subdivide(const Net& net);

// The faults of this module, in one form.
Fault fault_of_sheet(std::string path, std::string read, std::string mend);                      // N1
Fault fault_of_crease(const Net& net, LineKind kind, std::size_t index, std::string_view what);  // N2
Fault fault_of_panels(std::string path, std::string read, std::string mend);                     // N3
std::string describe(const Net& net, LineKind kind, std::size_t index);
std::string path_of(LineKind kind, std::size_t index);

// Faults when N1 does not hold.
std::optional<Fault> sheet_fault(const Net& net);

}  // namespace lapwright::geom
