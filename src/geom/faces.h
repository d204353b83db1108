// The faces of a planar graph, found by walking its half-edges.
#pragma once

#include "subdivision.h"

namespace lapwright::geom {

// Half-edge 2·i runs along piece i, 2·i + 1 against it.
constexpr std::size_t piece_of(std::size_t half) {
  return half / 2;
}
constexpr bool is_forward(std::size_t half) {
  return half % 2 == 0;
}
constexpr std::size_t twin_of(std::size_t half) {
  return half ^ 1U;
}

struct Faces {
  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);
  std::vector<std::vector<std::size_t>> cycles;  // half-edges in walking order, their face on the left
  std::vector<std::size_t> cycle_of;             // by half-edge; kNone when its piece is left out
};

// Walks all pieces i with used[i]. A cycle with positive area bounds a face from outside, one with negative
// area bounds a face from within. REQUIRES pieces that meet in nodes only.
Faces walk_faces(const Subdivision& graph, const std::vector<bool>& used);

Ring ring_of(const Subdivision& graph, const std::vector<std::size_t>& cycle);

}  // namespace lapwright::geom
