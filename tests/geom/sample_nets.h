// Nets that the geometry tests fold, built from plain numbers (mm) as a roofer would set them out.
#pragma once

#include <lapwright/geom/net.h>

#include <ostream>

namespace lapwright::geom {
// How GoogleTest shows a point.
inline void PrintTo(GridPoint p, std::ostream* out) {
  *out << "(" << to_length(p.x).in_mm() << ", " << to_length(p.y).in_mm() << ")";
}
}  // namespace lapwright::geom

namespace lapwright::geom::sample {

inline GridPoint at(double x, double y) {
  return grid_point(Length::mm(x), Length::mm(y));
}

inline Ring rectangle(double width, double height) {
  return {at(0, 0), at(width, 0), at(width, height), at(0, height)};
}

inline Fold fold(GridPoint from, GridPoint to, double degrees, bool up) {
  return {from, to, Angle::degrees(degrees), up};
}

// x up the slope, y across it, the upstand beyond y = leg.
//
//   75 +-----------------------+
//      |  upstand              |
//    0 |- - - fold 90 up - - - |
//      |  leg                  |
//      +-----------------------+
inline Net soaker(double length = 190, double leg = 100, double upstand = 75) {
  Net net;
  net.outline = rectangle(length, leg + upstand);
  net.roles = {EdgeRole::side, EdgeRole::head, EdgeRole::top, EdgeRole::tail};
  net.folds = {fold(at(0, leg), at(length, leg), 90, true)};
  return net;
}

// The same with a hook at the head: the leg's last part turns down over the batten, cut free of the upstand.
inline Net hooked_soaker(double length = 215, double hook = 25, double leg = 100, double upstand = 75) {
  Net net = soaker(length, leg, upstand);
  const double head = length - hook;
  net.folds = {fold(at(0, leg), at(head, leg), 90, true), fold(at(head, 0), at(head, leg), 90, false)};
  net.cuts = {{at(head, leg), at(length, leg)}};
  return net;
}

// Steps of `run` along the slope and `rise` square to it; the turn-in above each level edge leans by `lean`.
// The level edges are drawn here along x; the strip's lower edge falls behind them, as on a slope.
//
//            _______
//           / t-in  |
//    ______+ - - - -+      fold along the level edge, cut up the riser's lower part
//   / t-in :        |
//   + - - -:        |
//    \     strip   ...
struct Steps {
  int count = 3;
  double run = 120;
  double rise = 75;
  double turn_in = 25;
  double lean = 6;
  double depth = 150;
};

inline Net step_flashing(const Steps& s = {}) {
  Net net;
  const double end = s.run * s.count;
  // Lower edge, parallel to the line through the inner corners, then back along the steps from the top one
  // down.
  net.outline = {at(0, -s.depth), at(end, s.rise * s.count - s.depth)};
  net.roles = {EdgeRole::foot, EdgeRole::lap};
  for (int k = s.count - 1; k >= 0; --k) {
    const double left = s.run * k;
    const double right = left + s.run;
    const double level = s.rise * k;
    if (k == s.count - 1) net.outline.push_back(at(right, level));
    // The turn-in stands on the level edge; its right end is cut from the next riser, which goes on above the
    // cut.
    if (k == s.count - 1) net.roles.push_back(EdgeRole::side);
    net.outline.push_back(at(right, level + s.turn_in));
    net.roles.push_back(EdgeRole::turn_in);
    net.outline.push_back(at(left + s.lean, level + s.turn_in));
    net.roles.push_back(EdgeRole::side);
    net.outline.push_back(at(left, level));
    net.roles.push_back(k == 0 ? EdgeRole::lap : EdgeRole::riser);
    net.folds.push_back(fold(at(left, level), at(right, level), 90, false));
    if (k + 1 < s.count) net.cuts.push_back({at(right, level), at(right, level + s.turn_in)});
  }
  return net;
}

}  // namespace lapwright::geom::sample
