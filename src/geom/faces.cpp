#include "faces.h"

#include <algorithm>

namespace lapwright::geom {

namespace {

std::size_t start_of(const Subdivision& graph, std::size_t half) {
  const Piece& piece = graph.pieces[piece_of(half)];
  return is_forward(half) ? piece.from : piece.to;
}

// Order of directions by angle from the positive x axis, counter-clockwise. Exact.
bool earlier_direction(GridPoint centre, GridPoint p, GridPoint q) {
  const auto lower_half = [&](GridPoint r) { return r.y < centre.y || (r.y == centre.y && r.x < centre.x); };
  if (lower_half(p) != lower_half(q)) return lower_half(q);
  return turn(centre, p, q) > 0;
}

}  // namespace

Faces walk_faces(const Subdivision& graph, const std::vector<bool>& used) {
  const std::size_t halves = 2 * graph.pieces.size();
  std::vector<std::vector<std::size_t>> leaving(graph.nodes.size());
  for (std::size_t half = 0; half < halves; ++half) {
    if (used[piece_of(half)]) leaving[start_of(graph, half)].push_back(half);
  }
  // At the end of a half-edge the face on its left goes on along the next direction clockwise from the way
  // back.
  std::vector<std::size_t> next(halves, Faces::kNone);
  for (std::size_t node = 0; node < leaving.size(); ++node) {
    std::vector<std::size_t>& around = leaving[node];
    std::sort(around.begin(), around.end(), [&](std::size_t g, std::size_t h) {
      return earlier_direction(graph.nodes[node], graph.nodes[start_of(graph, twin_of(g))],
                               graph.nodes[start_of(graph, twin_of(h))]);
    });
    for (std::size_t i = 0; i < around.size(); ++i) {
      next[twin_of(around[i])] = around[(i + around.size() - 1) % around.size()];
    }
  }
  Faces faces;
  faces.cycle_of.assign(halves, Faces::kNone);
  for (std::size_t first = 0; first < halves; ++first) {
    if (!used[piece_of(first)] || faces.cycle_of[first] != Faces::kNone) continue;
    std::vector<std::size_t> cycle;
    for (std::size_t half = first; faces.cycle_of[half] == Faces::kNone; half = next[half]) {
      faces.cycle_of[half] = faces.cycles.size();
      cycle.push_back(half);
    }
    faces.cycles.push_back(std::move(cycle));
  }
  return faces;
}

Ring ring_of(const Subdivision& graph, const std::vector<std::size_t>& cycle) {
  Ring ring;
  ring.reserve(cycle.size());
  for (const std::size_t half : cycle) ring.push_back(graph.nodes[start_of(graph, half)]);
  std::rotate(ring.begin(), std::min_element(ring.begin(), ring.end()), ring.end());
  return ring;
}

}  // namespace lapwright::geom
