// A piece folded where it lies: what the tests hold against planes of their own.
#pragma once

#include <lapwright/geom/net.h>
#include <lapwright/job/plan.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace lapwright::sample {

inline constexpr double kTenth = 0.1;  // mm: how near a folded panel must come to its plane

// A panel's corners and outward normal, in the frame of the piece's slope.
struct Lying {
  std::vector<geom::Vec3> points;
  geom::Vec3 normal;

  double strays(geom::Vec3 point, geom::Vec3 unit_normal) const {
    double worst = 0;
    for (const geom::Vec3& p : points) worst = std::max(worst, std::fabs(dot(p - point, unit_normal)));
    return worst;
  }
};

// The base panel first. A net that does not fold is a failure, and nothing.
inline std::vector<Lying> folded(const job::Piece& piece, const job::Placement& place) {
  std::vector<Lying> out;
  EXPECT_EQ(geom::fault_of(piece.net), std::nullopt) << piece.kind;
  const auto panels = geom::split_into_panels(piece.net, piece.base_point);
  EXPECT_TRUE(panels) << piece.kind;
  if (!panels) return out;
  const auto frames = geom::fold_panels(piece.net, *panels, place.frame);
  for (std::size_t i = 0; i < frames.size(); ++i) {
    Lying panel;
    for (const geom::GridPoint g : (*panels)[i].ring)
      panel.points.push_back(frames[i].at(static_cast<double>(g.x) / 1000, static_cast<double>(g.y) / 1000));
    panel.normal = frames[i].normal();
    out.push_back(std::move(panel));
  }
  return out;
}

// All placements of a piece.
inline std::vector<Lying> folded(const job::Piece& piece) {
  std::vector<Lying> out;
  for (const job::Placement& place : piece.placements) {
    for (Lying& panel : folded(piece, place)) out.push_back(std::move(panel));
  }
  return out;
}

// How many edges of the one are also edges of the others, both ends in the same places.
inline std::size_t shared_edges(const std::vector<Lying>& one, const std::vector<Lying>& others) {
  struct Edge {
    geom::Vec3 a;
    geom::Vec3 b;
  };
  const auto edges_of = [](const std::vector<Lying>& panels) {
    std::vector<Edge> out;
    for (const Lying& panel : panels) {
      for (std::size_t i = 0; i < panel.points.size(); ++i)
        out.push_back({panel.points[i], panel.points[(i + 1) % panel.points.size()]});
    }
    return out;
  };
  const auto near = [](geom::Vec3 p, geom::Vec3 q) { return length_of(p - q) < kTenth; };
  const std::vector<Edge> there = edges_of(others);
  std::size_t shared = 0;
  for (const Edge& e : edges_of(one)) {
    shared += std::any_of(there.begin(), there.end(), [&](const Edge& o) {
      return (near(e.a, o.a) && near(e.b, o.b)) || (near(e.a, o.b) && near(e.b, o.a));
    });
  }
  return shared;
}

}  // namespace lapwright::sample
