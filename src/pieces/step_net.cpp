#include "step_net.h"

#include <lapwright/base/trig.h>

#include <algorithm>
#include <vector>

namespace lapwright::pieces {

namespace {

using geom::EdgeRole;
using geom::grid_point;
using geom::GridPoint;

// A point of the net before it is laid on the grid.
struct Flat {
  Length a;
  Length b;
};

Flat operator+(Flat p, Flat q) {
  return {p.a + q.a, p.b + q.b};
}

// The point between p (a <= limit) and q (a > limit) where a == limit.
Flat where_crossing(Flat p, Flat q, Length limit) {
  const double t = (limit - p.a) / (q.a - p.a);
  return {limit, p.b + (q.b - p.b) * t};
}

class Outline {
 public:
  explicit Outline(Length foot) : foot_(foot) {}
  GridPoint on_grid(Flat p) const { return grid_point(p.a, p.b - foot_); }
  void add(Flat p, EdgeRole role_of_edge_from_here) {
    const GridPoint g = on_grid(p);
    if (!net_.outline.empty() && net_.outline.back() == g) {
      net_.roles.back() = role_of_edge_from_here;
      return;
    }
    net_.outline.push_back(g);
    net_.roles.push_back(role_of_edge_from_here);
  }
  geom::Net& net() { return net_; }

 private:
  Length foot_;
  geom::Net net_;
};

// The wall's plumb upper end, `b` above the roof, measured from `start`.
Length wall_end(const Steps& steps, Length start, Length b) {
  return steps.run - start + b * tan(steps.pitch);
}

}  // namespace

geom::Net step_net(const Steps& steps, std::size_t first, std::size_t last) {
  const double sine = sin(steps.pitch);
  const double cosine = cos(steps.pitch);
  const bool at_wall_top = last == steps.steps.size();
  const Length start = reach_of(steps, first, last).low;
  const Length end = steps.steps[last - 1].to - start;    // on the water line
  const Length plumb = wall_end(steps, start, Length{});  // the wall's end is plumb, a piece's is square
  const Length foot = foot_of(steps, first);
  const Length w = steps.water_line;
  const Flat turn{steps.turn_in * sine, steps.turn_in * cosine};  // upright in the wall

  Outline outline(foot);
  std::vector<geom::Fold> folds;
  std::vector<geom::Cut> cuts;
  outline.add({Length{}, foot}, foot > Length{} ? EdgeRole::lap : EdgeRole::foot);
  if (foot <= Length{}) outline.add({at_wall_top ? plumb : min(end, plumb), Length{}}, EdgeRole::lap);
  // A piece that ends past the wall's end at the roof, but short of it at the water line.
  if (!at_wall_top && end > plumb) outline.add({end, (end - plumb) / tan(steps.pitch)}, EdgeRole::lap);
  // Counter-clockwise: over the steps from the upper end down.
  for (std::size_t i = last; i-- > first;) {
    const Step& step = steps.steps[i];
    const Flat riser_foot{step.from - start, w};
    if (!step.turned_in) {
      outline.add({step.to - start, w}, EdgeRole::plain);
      outline.add(riser_foot, EdgeRole::plain);
      continue;
    }
    const Flat outer = riser_foot + Flat{step.height * sine, step.height * cosine};
    const bool upper_end = i + 1 == last;
    // The level edge runs from `outer` until it meets the water line, or the wall's upper end first.
    Flat inner{step.to - start, w};
    if (upper_end && at_wall_top) {
      const WallPoint p = upper_end_at(steps, step.joint);
      inner = {p.a - start, p.b};
    }
    const Flat turned_inner = inner + turn;
    const Flat turned_outer = outer + turn;
    if (upper_end) {
      outline.add(inner, EdgeRole::lap);
      if (at_wall_top) {  // the wall's end is plumb, and so is the turn-in's
        outline.add(turned_inner, EdgeRole::turn_in);
        outline.add(turned_outer, EdgeRole::riser);
      } else if (turned_outer.a <= end) {  // trimmed square to the end: nothing of the turn-in stands past it
        outline.add(where_crossing(turned_outer, turned_inner, end), EdgeRole::turn_in);
        outline.add(turned_outer, EdgeRole::riser);
      } else {
        outline.add(where_crossing(outer, turned_outer, end), EdgeRole::riser);
      }
    } else {
      const bool next_rises = steps.steps[i + 1].turned_in;
      if (next_rises) {
        // turned_inner lies on the next step's riser: the snip from there down to the inner corner parts the
        // turn-in.
        outline.add(turned_inner, EdgeRole::turn_in);
        cuts.push_back({outline.on_grid(turned_inner), outline.on_grid(inner)});
      } else {
        outline.add(inner, EdgeRole::riser);
        outline.add(turned_inner, EdgeRole::turn_in);
      }
      outline.add(turned_outer, EdgeRole::riser);
    }
    outline.add(outer, EdgeRole::riser);
    folds.push_back({outline.on_grid(outer), outline.on_grid(inner), Angle::degrees(90), false});
    const bool joins_lower_turn_in = i > first && steps.steps[i - 1].turned_in;
    if (!joins_lower_turn_in) outline.add(riser_foot, i == first ? EdgeRole::lap : EdgeRole::plain);
  }
  outline.net().roles.back() = EdgeRole::lap;  // back to the lower end of the foot
  std::reverse(folds.begin(), folds.end());
  outline.net().folds = std::move(folds);
  outline.net().cuts = std::move(cuts);
  return std::move(outline.net());
}

geom::GridPoint step_face_point(const Steps& steps, std::size_t first, std::size_t last) {
  const Length start = reach_of(steps, first, last).low;
  const Length foot = foot_of(steps, first);
  const Length b = foot + (steps.water_line - foot) / 4.0;
  const Length left = first == 0 ? b * tan(steps.pitch) : Length{};
  Length right = wall_end(steps, start, b);
  if (last < steps.steps.size()) right = min(right, boundary(steps, last) - start);
  return grid_point((left + right) / 2.0, b - foot);
}

}  // namespace lapwright::pieces
