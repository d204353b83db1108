// A flat net: the single source of truth about a piece of lead.
//
// An outline, holes, and creases: straight lines along which the sheet is folded or cut. Folding the net gives the
// solid; drawing it gives the template; nesting it gives the cutting plan; weighing it gives the bill.
//
//     y
//     ^   +--------------+       outline: counter-clockwise, seen from the outward (weather) face
//     |   |  turn-in     |
//     |   |- - fold - - -|       fold: angle > 0, `up` when the moving part comes towards the viewer
//     |   |  face        |
//     |   +------+       |       cut: a snip from the edge inwards; it parts two panels without hinging them
//     |          |  cut
//     +-------------------> x
//
// Properties (tested by name):
//  N1  The outline is simple and counter-clockwise; holes are simple, clockwise, inside it and apart from each other.
//  N2  Every end of a crease is a point of the outline, or an end of another crease: creases never cross elsewhere.
//  N3  The creases split the outline into panels; panels joined by folds form a tree that reaches every panel.
//  N4  Area is kept by folding; folding by zero angles gives the flat net.
//  N5  Folding then unfolding gives the same net (to kGrid).
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/geom/polygon.h>
#include <lapwright/geom/space.h>

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace lapwright::geom {

// What an edge of the outline is, as the roof sees it. It names edges on drawings and lets a checker find the edge
// that a lap is measured from.
enum class EdgeRole : std::uint8_t {
  plain,    // nothing in particular
  tail,     // the lower edge, down the slope
  head,     // the upper edge, up the slope
  side,     // the free edge under the units
  top,      // the upper edge of an upstand
  foot,     // the lower edge of a flashing, at the roof
  riser,    // the upright edge between two steps
  turn_in,  // the edge that stands deepest in a joint or chase
  lap,      // an end that laps over or under the next piece
};
std::string_view name_of(EdgeRole role);

struct Fold {
  GridPoint from;
  GridPoint to;
  Angle angle;      // 0 < angle <= 180: how far the moving panel leaves the plane of its neighbour
  bool up = true;   // towards the viewer of the outward face, or away from it
};

struct Cut {
  GridPoint from;
  GridPoint to;
};

struct Net {
  Ring outline;
  std::vector<EdgeRole> roles;  // of the edge outline[i] → outline[i + 1]; same size as outline, or empty (all plain)
  std::vector<Ring> holes;
  std::vector<Fold> folds;  // in bending order
  std::vector<Cut> cuts;
};

// The sheet: the outline's area less the holes'.
Area net_area(const Net& net);

// One flat part between creases. `hinge` is the fold that joins it to `parent`; the base panel has neither.
struct Panel {
  Ring ring;
  std::optional<std::size_t> parent;
  std::optional<std::size_t> hinge;  // index into Net::folds
};

// Splits a net into its panels: base first, every parent before its children. The base is the panel that contains
// `base_point`. Faults (no_geometry) name the property of this header that does not hold.
Result<std::vector<Panel>> split_into_panels(const Net& net, GridPoint base_point);

// Every panel's frame in space when the base panel lies in `base`. frames[i] places net coordinates (mm) of panel i.
std::vector<Frame> fold_panels(const Net& net, const std::vector<Panel>& panels, const Frame& base);

// Mirrors x → −x, so that a left-hand piece becomes the right-hand one. Folds keep their direction (up stays
// up); the outline stays counter-clockwise.
Net mirrored(const Net& net);

// Moved so that its box starts at (0, 0).
Net at_origin(const Net& net);

// Faults when N1 to N3 do not hold.
std::optional<Fault> fault_of(const Net& net);

// Same sheet, creases and roles, point for point, once both are at the origin and start at the least point.
bool same_net(const Net& a, const Net& b);

}  // namespace lapwright::geom
