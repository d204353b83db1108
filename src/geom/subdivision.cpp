#include "subdivision.h"

#include "segments.h"

#include <lapwright/base/trig.h>

#include <algorithm>
#include <limits>

namespace lapwright::geom {

namespace {

// Grid units: how far a grid point may lie from a slanted line that it is meant to be on: rounding both its
// coordinates moves it by up to 0.71 grid, and the same has happened to the line's ends.
constexpr double kOnLine = 2.0;

struct Crease {
  GridPoint from;
  GridPoint to;
  LineKind kind;
  std::size_t index;  // in the net
  std::size_t a = 0;  // nodes
  std::size_t b = 0;
};

// A node that a line passes, and how far along.
struct Stop {
  std::int64_t along;
  std::size_t node;
};

double squared(GridPoint a, GridPoint b) {
  return static_cast<double>(dot_of(a, b, b));
}

// Distance of p from the line a–b when p is beside its inside; infinite otherwise.
double distance_beside(GridPoint p, GridPoint a, GridPoint b) {
  const std::int64_t along = dot_of(a, b, p);
  if (along <= 0 || along >= dot_of(a, b, b)) return std::numeric_limits<double>::infinity();
  const auto cross = static_cast<double>(cross_of(a, b, p));
  return (cross < 0 ? -cross : cross) / square_root(squared(a, b));
}

class Subdivider {
 public:
  explicit Subdivider(const Net& net) : net_(net) {}

  Result<Subdivision> run() {
    add_sheet();
    add_creases();
    if (std::optional<Fault> fault = ends_fault()) return failed(*std::move(fault));
    split_sheet();
    split_creases();
    if (std::optional<Fault> fault = holding_fault()) return failed(*std::move(fault));
    if (std::optional<Fault> fault = crossing_fault()) return failed(*std::move(fault));
    return std::move(out_);
  }

 private:
  struct SheetEdge {
    std::size_t a;
    std::size_t b;
    LineKind kind;
    std::size_t index;
    std::vector<Stop> stops;
  };

  void add_ring(const Ring& ring, LineKind kind, std::size_t hole) {
    const std::size_t first = out_.nodes.size();
    for (std::size_t i = 0; i < ring.size(); ++i) {
      out_.nodes.push_back(ring[i]);
      sheet_.push_back(
          {first + i, first + (i + 1) % ring.size(), kind, kind == LineKind::hole ? hole : i, {}});
    }
  }

  void add_sheet() {
    add_ring(net_.outline, LineKind::outline, 0);
    for (std::size_t i = 0; i < net_.holes.size(); ++i) add_ring(net_.holes[i], LineKind::hole, i);
    sheet_nodes_ = out_.nodes.size();
  }

  // The nearest node within kOnLine, or a new one.
  std::size_t node_at(GridPoint p) {
    std::size_t best = out_.nodes.size();
    double best_distance = kOnLine * kOnLine;
    for (std::size_t i = 0; i < out_.nodes.size(); ++i) {
      const double distance = squared(p, out_.nodes[i]);
      if (distance < best_distance || (distance == best_distance && best == out_.nodes.size())) {
        best = i;
        best_distance = distance;
      }
    }
    if (best == out_.nodes.size()) out_.nodes.push_back(p);
    return best;
  }

  void add_creases() {
    for (std::size_t i = 0; i < net_.folds.size(); ++i) {
      creases_.push_back({net_.folds[i].from, net_.folds[i].to, LineKind::fold, i});
    }
    for (std::size_t i = 0; i < net_.cuts.size(); ++i) {
      creases_.push_back({net_.cuts[i].from, net_.cuts[i].to, LineKind::cut, i});
    }
    for (Crease& crease : creases_) {
      crease.a = node_at(crease.from);
      crease.b = node_at(crease.to);
    }
  }

  std::optional<Fault> ends_fault() const {
    for (const Crease& crease : creases_) {
      if (crease.a == crease.b) return fault(crease, "give it two different ends");
      if (crease.kind != LineKind::fold) continue;
      const double degrees = net_.folds[crease.index].angle.in_degrees();
      if (!(degrees >= 0 && degrees <= 180)) return fault(crease, "give it an angle from 0 to 180");
    }
    return std::nullopt;
  }

  // The ends of creases that lie along the sheet's edges become nodes of those edges, each of the nearest
  // one.
  void split_sheet() {
    holds_.assign(out_.nodes.size(), 0);
    for (std::size_t node = 0; node < sheet_nodes_; ++node) holds_[node] = 2;
    for (std::size_t node = sheet_nodes_; node < out_.nodes.size(); ++node) {
      SheetEdge* nearest = nullptr;
      double least = kOnLine;
      for (SheetEdge& edge : sheet_) {
        const double distance = distance_beside(out_.nodes[node], out_.nodes[edge.a], out_.nodes[edge.b]);
        if (distance > least || (nearest != nullptr && distance == least)) continue;
        nearest = &edge;
        least = distance;
      }
      if (nearest == nullptr) continue;
      holds_[node] = 2;
      nearest->stops.push_back({along(nearest->a, nearest->b, node), node});
    }
    for (SheetEdge& edge : sheet_) add_pieces(edge.a, edge.b, edge.stops, edge.kind, edge.index);
  }

  void split_creases() {
    for (const Crease& crease : creases_) {
      ++holds_[crease.a];
      ++holds_[crease.b];
      std::vector<Stop> stops;
      for (std::size_t node = 0; node < out_.nodes.size(); ++node) {
        if (node == crease.a || node == crease.b) continue;
        if (distance_beside(out_.nodes[node], out_.nodes[crease.a], out_.nodes[crease.b]) > kOnLine) continue;
        ++holds_[node];
        stops.push_back({along(crease.a, crease.b, node), node});
      }
      add_pieces(crease.a, crease.b, stops, crease.kind, crease.index);
    }
  }

  std::int64_t along(std::size_t a, std::size_t b, std::size_t node) const {
    return dot_of(out_.nodes[a], out_.nodes[b], out_.nodes[node]);
  }

  void add_pieces(std::size_t a, std::size_t b, std::vector<Stop>& stops, LineKind kind, std::size_t index) {
    std::sort(stops.begin(), stops.end(), [](const Stop& s, const Stop& t) {
      return s.along != t.along ? s.along < t.along : s.node < t.node;
    });
    std::size_t from = a;
    for (const Stop& stop : stops) {
      out_.pieces.push_back({from, stop.node, kind, index});
      from = stop.node;
    }
    out_.pieces.push_back({from, b, kind, index});
  }

  // A crease's own end counts one hold; anything else there makes two.
  std::optional<Fault> holding_fault() const {
    for (const Crease& crease : creases_) {
      const bool a_held = holds_[crease.a] >= 2;
      const bool b_held = holds_[crease.b] >= 2;
      if (crease.kind == LineKind::fold ? !(a_held && b_held) : !(a_held || b_held)) {
        return fault(crease, "let it end on an edge, a hole or another crease");
      }
    }
    return std::nullopt;
  }

  std::optional<Fault> crossing_fault() const {
    const std::vector<GridPoint>& at = out_.nodes;
    for (std::size_t j = 0; j < out_.pieces.size(); ++j) {
      const Piece& q = out_.pieces[j];
      for (std::size_t i = 0; i < j; ++i) {
        const Piece& p = out_.pieces[i];
        const bool from_shared = p.from == q.from || p.from == q.to;
        const bool to_shared = p.to == q.from || p.to == q.to;
        if (from_shared && to_shared) {
          return fault_of_crease(net_, q.kind, q.index,
                                 "let it not run along " + describe(net_, p.kind, p.index));
        }
        // Pieces that share one end cannot overlap: the nearer far end would have split the other piece.
        if (from_shared || to_shared) continue;
        if (segments_touch(at[p.from], at[p.to], at[q.from], at[q.to])) {
          return fault_of_crease(net_, q.kind, q.index,
                                 "let it not cross " + describe(net_, p.kind, p.index));
        }
      }
    }
    return std::nullopt;
  }

  Fault fault(const Crease& crease, std::string_view what) const {
    return fault_of_crease(net_, crease.kind, crease.index, what);
  }

  const Net& net_;
  Subdivision out_;
  std::vector<SheetEdge> sheet_;
  std::vector<Crease> creases_;
  std::vector<int> holds_;  // by node: how many things meet there, the sheet's edge counting two
  std::size_t sheet_nodes_ = 0;
};

}  // namespace

Result<Subdivision> subdivide(const Net& net) {
  return Subdivider(net).run();
}

}  // namespace lapwright::geom
