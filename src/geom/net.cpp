#include <lapwright/geom/net.h>

#include <algorithm>
#include <array>
#include <utility>

namespace lapwright::geom {

namespace {

constexpr std::array<std::string_view, 9> kRoleNames{"plain", "tail",  "head",    "side", "top",
                                                     "foot",  "riser", "turn-in", "lap"};

template <class Crease>
void swap_to_order(Crease& crease) {
  if (crease.to < crease.from) std::swap(crease.from, crease.to);
}

template <class T>
void start_at(std::vector<T>& list, std::size_t first) {
  std::rotate(list.begin(), list.begin() + static_cast<std::ptrdiff_t>(first), list.end());
}

// One spelling for all nets that are the same.
Net normal_form(const Net& net) {
  Net out = at_origin(net);
  if (out.roles.empty()) out.roles.assign(out.outline.size(), EdgeRole::plain);
  const auto least = [](const Ring& ring) {
    return static_cast<std::size_t>(std::min_element(ring.begin(), ring.end()) - ring.begin());
  };
  const std::size_t first = least(out.outline);
  start_at(out.outline, first);
  if (out.roles.size() == out.outline.size()) start_at(out.roles, first);
  for (Ring& hole : out.holes) start_at(hole, least(hole));
  std::sort(out.holes.begin(), out.holes.end());
  for (Fold& fold : out.folds) swap_to_order(fold);
  for (Cut& cut : out.cuts) swap_to_order(cut);
  std::sort(out.cuts.begin(), out.cuts.end(),
            [](const Cut& a, const Cut& b) { return std::pair(a.from, a.to) < std::pair(b.from, b.to); });
  return out;
}

template <class Move>
Net with_points(Net net, Move move) {
  const auto move_ring = [&](Ring& ring) {
    for (GridPoint& p : ring) p = move(p);
  };
  move_ring(net.outline);
  for (Ring& hole : net.holes) move_ring(hole);
  for (Fold& fold : net.folds) {
    fold.from = move(fold.from);
    fold.to = move(fold.to);
  }
  for (Cut& cut : net.cuts) {
    cut.from = move(cut.from);
    cut.to = move(cut.to);
  }
  return net;
}

}  // namespace

std::string_view name_of(EdgeRole role) {
  return kRoleNames[static_cast<std::size_t>(role)];
}

Area net_area(const Net& net) {
  Area sum = area(net.outline);
  for (const Ring& hole : net.holes) sum = sum - area(hole);
  return sum;
}

Net mirrored(const Net& net) {
  Net out = with_points(net, [](GridPoint p) { return GridPoint{-p.x, p.y}; });
  // Points were mirrored in place; turning each ring round, first point first, makes it counter-clockwise
  // again.
  const auto turn_round = [](Ring& ring) {
    if (!ring.empty()) std::reverse(ring.begin() + 1, ring.end());
  };
  turn_round(out.outline);
  for (Ring& hole : out.holes) turn_round(hole);
  std::reverse(out.roles.begin(), out.roles.end());  // the edge into the first point is now the one out of it
  return out;
}

Net at_origin(const Net& net) {
  if (net.outline.empty()) return net;
  const GridPoint low = bounds(net.outline).low;
  return with_points(net, [&](GridPoint p) { return GridPoint{p.x - low.x, p.y - low.y}; });
}

bool same_net(const Net& a, const Net& b) {
  const Net p = normal_form(a);
  const Net q = normal_form(b);
  const auto same_crease = [](const auto& s, const auto& t) { return s.from == t.from && s.to == t.to; };
  const auto same_cut = [&](const Cut& s, const Cut& t) { return same_crease(s, t) && s.worked == t.worked; };
  const auto same_fold = [&](const Fold& s, const Fold& t) {
    return same_crease(s, t) && s.angle == t.angle && s.up == t.up;
  };
  return p.outline == q.outline && p.roles == q.roles && p.holes == q.holes &&
         std::equal(p.folds.begin(), p.folds.end(), q.folds.begin(), q.folds.end(), same_fold) &&
         std::equal(p.cuts.begin(), p.cuts.end(), q.cuts.begin(), q.cuts.end(), same_cut);
}

}  // namespace lapwright::geom
