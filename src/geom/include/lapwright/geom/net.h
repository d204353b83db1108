// A flat net: the single source of truth about a piece of lead.
//
// An outline, holes, and creases: straight lines along which the sheet is folded or cut. Folding the net
// gives the solid; drawing it gives the template; nesting it gives the cutting plan; weighing it gives the
// bill.
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
//  N1  The outline is simple and counter-clockwise; holes are simple, clockwise, inside it and apart from
//  each other;
//      `roles` is empty or as long as the outline; every point is within ±2^30 µm.
//  N2  Every end of a crease lies on the outline, on a hole, or on another crease (at its end or between its
//  ends);
//      one end of a cut may end inside the sheet instead. A crease has two different ends, runs inside the
//      sheet, and neither crosses nor overlaps anything. "On" means within 2 µm, so that ends may lie on
//      slanted lines, which pass between grid points: the line is then taken to pass through the end. Fold
//      angles are in [0, 180].
//  N3  The creases split the sheet into panels; every fold parts two panels, and panels joined by folds form
//  a tree
//      that reaches every panel.
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

// What an edge of the outline is, as the roof sees it. It names edges on drawings and lets a checker find the
// edge that a lap is measured from.
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
  Angle angle;     // 0 <= angle <= 180: how far the moving panel leaves the plane of its neighbour
  bool up = true;  // towards the viewer of the outward face, or away from it
};

// A snip; or, `worked`, a line along which the sheet is not cut but bossed: stretched until the two panels
// beside it, which a flat sheet cannot both reach, have room. Folding treats both alike.
struct Cut {
  GridPoint from;
  GridPoint to;
  bool worked = false;
};

struct Net {
  Ring outline;
  std::vector<EdgeRole>
      roles;  // of the edge outline[i] → outline[i + 1]; same size as outline, or empty (all plain)
  std::vector<Ring> holes;
  std::vector<Fold> folds;  // in bending order
  std::vector<Cut> cuts;
};

// The sheet: the outline's area less the holes'.
Area net_area(const Net& net);

// One flat part between creases. `hinge` is the fold that joins it to `parent`; the base panel has neither.
// The ring is counter-clockwise, starts at its least point and keeps every point where a crease meets it, so
// that neighbours share their points. `holes` are the clockwise rings inside it: the net's holes, and what
// cuts and folds part within. Cuts that part nothing (a dangling one, one from the edge to a hole) leave no
// trace in either.
struct Panel {
  Ring ring;
  std::vector<Ring> holes;
  std::optional<std::size_t> parent;
  std::optional<std::size_t> hinge;  // index into Net::folds
};

// Splits a net into its panels: base first, every parent before its children, the children of one panel in
// bending order, those on one fold by least point. The base is the panel that contains `base_point`; on a
// crease, that with the least point. Otherwise one fault (no_geometry): its `accepted` begins with the name
// of the property that does not hold ("N2: ..."), its `path` names the part (net.folds[1]), its `read` gives
// that in mm. A base point outside every panel is a fault with the path net.base_point.
Result<std::vector<Panel>> split_into_panels(const Net& net, GridPoint base_point);

// Every panel's frame in space when the base panel lies in `base`. frames[i] places net coordinates (mm) of
// panel i. A fold `up` brings the moving panel (the child) towards the outward face (x_axis × y_axis) of its
// parent, whichever way round its ends are given. REQUIRES panels from split_into_panels(net).
std::vector<Frame> fold_panels(const Net& net, const std::vector<Panel>& panels, const Frame& base);

// Mirrors x → −x, so that a left-hand piece becomes the right-hand one. Folds keep their direction (up stays
// up); the outline stays counter-clockwise and keeps its first point. Mirroring twice gives the same net.
Net mirrored(const Net& net);

// Moved so that the outline's box starts at (0, 0).
Net at_origin(const Net& net);

// The first fault when N1 to N3 do not hold, as split_into_panels gives it.
std::optional<Fault> fault_of(const Net& net);

// Same sheet, creases and roles, point for point, once both are at the origin and start at the least point.
// Folds are compared in bending order, holes and cuts in any order, the ends of a crease either way round; no
// roles are the same as all plain.
bool same_net(const Net& a, const Net& b);

}  // namespace lapwright::geom
