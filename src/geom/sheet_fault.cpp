#include "segments.h"
#include "subdivision.h"

#include <fmt/format.h>

#include <algorithm>

namespace lapwright::geom {

namespace {

constexpr Grid kFarthest = Grid{1} << 30;

bool in_range(GridPoint p) {
  return p.x >= -kFarthest && p.x <= kFarthest && p.y >= -kFarthest && p.y <= kFarthest;
}

bool all_in_range(const Net& net) {
  const auto ring_in_range = [](const Ring& ring) { return std::all_of(ring.begin(), ring.end(), in_range); };
  const auto crease_in_range = [](const auto& crease) {
    return in_range(crease.from) && in_range(crease.to);
  };
  return ring_in_range(net.outline) && std::all_of(net.holes.begin(), net.holes.end(), ring_in_range) &&
         std::all_of(net.folds.begin(), net.folds.end(), crease_in_range) &&
         std::all_of(net.cuts.begin(), net.cuts.end(), crease_in_range);
}

bool rings_touch(const Ring& a, const Ring& b) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (std::size_t j = 0; j < b.size(); ++j) {
      if (segments_touch(a[i], a[(i + 1) % a.size()], b[j], b[(j + 1) % b.size()])) return true;
    }
  }
  return false;
}

std::optional<Fault> hole_fault(const Net& net, std::size_t index) {
  const Ring& hole = net.holes[index];
  const auto fault = [&](std::string read, std::string mend) {
    return fault_of_sheet(path_of(LineKind::hole, index), std::move(read), std::move(mend));
  };
  if (!is_simple(hole)) return fault("a hole that touches itself", "draw the hole as one plain ring");
  if (twice_area(hole) > 0) return fault("a counter-clockwise hole", "turn the hole round");
  if (rings_touch(hole, net.outline) || side_of(hole[0], net.outline) != Side::inside) {
    return fault("a hole that is not inside the outline", "move the hole into the sheet");
  }
  for (std::size_t other = 0; other < index; ++other) {
    const Ring& ring = net.holes[other];
    if (rings_touch(hole, ring) || side_of(hole[0], ring) == Side::inside ||
        side_of(ring[0], hole) == Side::inside) {
      return fault(fmt::format("a hole that meets hole {}", other), "make them one hole");
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<Fault> sheet_fault(const Net& net) {
  if (!all_in_range(net))
    return fault_of_sheet("net", "a point farther than 2^30 µm from the origin", "move it nearer");
  if (!is_simple(net.outline)) {
    return fault_of_sheet("net.outline",
                          fmt::format("an outline of {} points that is not simple", net.outline.size()),
                          "let no edge touch another, and no point stand twice");
  }
  if (twice_area(net.outline) < 0)
    return fault_of_sheet("net.outline", "a clockwise outline", "turn the outline round");
  if (!net.roles.empty() && net.roles.size() != net.outline.size()) {
    return fault_of_sheet("net.roles",
                          fmt::format("{} roles for {} edges", net.roles.size(), net.outline.size()),
                          "give each edge a role, or none");
  }
  for (std::size_t i = 0; i < net.holes.size(); ++i) {
    if (std::optional<Fault> fault = hole_fault(net, i)) return fault;
  }
  return std::nullopt;
}

}  // namespace lapwright::geom
