#include <lapwright/geom/net.h>

#include "faces.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <utility>

namespace lapwright::geom {

namespace {

bool is_crease(LineKind kind) {
  return kind == LineKind::fold || kind == LineKind::cut;
}

// Two panels that one fold joins.
struct Link {
  std::size_t fold = 0;
  std::size_t a = 0;
  std::size_t b = 0;
  friend constexpr auto operator<=>(const Link&, const Link&) = default;
};

struct FlatPanel {
  Ring ring;
  std::vector<Ring> holes;
};

class Splitter {
 public:
  Splitter(const Net& net, Subdivision graph) : net_(net), graph_(std::move(graph)) {}

  Result<std::vector<Panel>> run(GridPoint base_point) {
    used_.assign(graph_.pieces.size(), true);
    faces_ = walk_faces(graph_, used_);
    if (std::optional<Fault> fault = outside_fault()) return failed(*std::move(fault));
    if (std::optional<Fault> fault = drop_idle_creases()) return failed(*std::move(fault));
    collect_panels();
    collect_links();
    const std::optional<std::size_t> base = panel_at(base_point);
    if (!base) {
      return failed(
          fault_of_panels("net.base_point", "a base point outside every panel", "lay it on the sheet"));
    }
    return tree_from(*base);
  }

 private:
  // The way against an edge of the sheet has no lead on its left.
  bool off_sheet(const std::vector<std::size_t>& cycle) const {
    return std::any_of(cycle.begin(), cycle.end(), [&](std::size_t half) {
      return !is_forward(half) && !is_crease(graph_.pieces[piece_of(half)].kind);
    });
  }

  std::optional<Fault> outside_fault() const {
    for (const std::vector<std::size_t>& cycle : faces_.cycles) {
      const auto crease = std::find_if(cycle.begin(), cycle.end(), [&](std::size_t half) {
        return is_crease(graph_.pieces[piece_of(half)].kind);
      });
      if (crease == cycle.end() || !(off_sheet(cycle) || floats_outside(cycle))) continue;
      const Piece& piece = graph_.pieces[piece_of(*crease)];
      return fault_of_crease(net_, piece.kind, piece.index, "let it run inside the sheet");
    }
    return std::nullopt;
  }

  // The outer way round creases that hold on to each other only: any point of it tells where they all are.
  bool floats_outside(const std::vector<std::size_t>& cycle) const {
    if (std::any_of(cycle.begin(), cycle.end(),
                    [&](std::size_t half) { return !is_crease(graph_.pieces[piece_of(half)].kind); })) {
      return false;
    }
    const Ring ring = ring_of(graph_, cycle);
    if (twice_area(ring) > 0) return false;
    return side_of(ring[0], net_.outline) != Side::inside ||
           std::any_of(net_.holes.begin(), net_.holes.end(),
                       [&](const Ring& hole) { return side_of(ring[0], hole) == Side::inside; });
  }

  // A crease with one face on both sides parts nothing: idle cuts go, so that rings are simple; an idle fold
  // cannot be folded.
  std::optional<Fault> drop_idle_creases() {
    bool dropped = false;
    for (std::size_t i = 0; i < graph_.pieces.size(); ++i) {
      if (faces_.cycle_of[2 * i] != faces_.cycle_of[2 * i + 1]) continue;
      const Piece& piece = graph_.pieces[i];
      if (piece.kind == LineKind::fold) {
        return fault_of_panels(path_of(piece.kind, piece.index), describe(net_, piece.kind, piece.index),
                               "let the fold part two panels");
      }
      used_[i] = false;
      dropped = true;
    }
    if (dropped) faces_ = walk_faces(graph_, used_);
    return std::nullopt;
  }

  // Panels in the order of their rings, so that numbers depend on the shape alone.
  void collect_panels() {
    std::vector<std::pair<Ring, std::size_t>> outer;
    std::vector<std::pair<Ring, std::size_t>> inner;
    for (std::size_t i = 0; i < faces_.cycles.size(); ++i) {
      if (off_sheet(faces_.cycles[i])) continue;
      Ring ring = ring_of(graph_, faces_.cycles[i]);
      auto& list = twice_area(ring) > 0 ? outer : inner;
      list.emplace_back(std::move(ring), i);
    }
    std::sort(outer.begin(), outer.end());
    std::sort(inner.begin(), inner.end());
    panel_of_cycle_.assign(faces_.cycles.size(), Faces::kNone);
    for (auto& [ring, cycle] : outer) {
      panel_of_cycle_[cycle] = panels_.size();
      panels_.push_back({std::move(ring), {}});
    }
    // What touches nothing around it lies in the innermost panel that contains it: the last one, as a ring
    // within another has the greater least point.
    for (auto& [ring, cycle] : inner) {
      std::size_t best = Faces::kNone;
      for (std::size_t panel = 0; panel < panels_.size(); ++panel) {
        if (side_of(ring[0], panels_[panel].ring) == Side::inside) best = panel;
      }
      assert(best != Faces::kNone);  // outside_fault saw to it
      panel_of_cycle_[cycle] = best;
      panels_[best].holes.push_back(std::move(ring));
    }
  }

  void collect_links() {
    for (std::size_t i = 0; i < graph_.pieces.size(); ++i) {
      const Piece& piece = graph_.pieces[i];
      if (piece.kind != LineKind::fold) continue;
      const std::size_t left = panel_of_cycle_[faces_.cycle_of[2 * i]];
      const std::size_t right = panel_of_cycle_[faces_.cycle_of[2 * i + 1]];
      links_.push_back({piece.index, std::min(left, right), std::max(left, right)});
    }
    std::sort(links_.begin(), links_.end());
    links_.erase(std::unique(links_.begin(), links_.end()), links_.end());
  }

  std::optional<std::size_t> panel_at(GridPoint p) const {
    for (std::size_t i = 0; i < panels_.size(); ++i) {
      const FlatPanel& panel = panels_[i];
      if (side_of(p, panel.ring) == Side::outside) continue;
      if (std::any_of(panel.holes.begin(), panel.holes.end(),
                      [&](const Ring& hole) { return side_of(p, hole) == Side::inside; })) {
        continue;
      }
      return i;
    }
    return std::nullopt;
  }

  // Breadth first, in the order of links_: folds in bending order, then panels.
  Result<std::vector<Panel>> tree_from(std::size_t base) {
    std::vector<std::size_t> place(panels_.size(), Faces::kNone);
    std::vector<std::size_t> order{base};
    std::vector<Panel> out{{panels_[base].ring, panels_[base].holes, std::nullopt, std::nullopt}};
    place[base] = 0;
    for (std::size_t next = 0; next < order.size(); ++next) {
      for (const Link& link : links_) {
        if (link.a != order[next] && link.b != order[next]) continue;
        const std::size_t other = link.a == order[next] ? link.b : link.a;
        if (place[other] != Faces::kNone) {
          if (out[next].parent == place[other] && out[next].hinge == link.fold) continue;
          if (out[place[other]].parent == next && out[place[other]].hinge == link.fold) continue;
          return failed(fault_of_panels(path_of(LineKind::fold, link.fold),
                                        describe(net_, LineKind::fold, link.fold),
                                        "cut one of the folds that close a ring of panels"));
        }
        place[other] = out.size();
        order.push_back(other);
        out.push_back({panels_[other].ring, panels_[other].holes, next, link.fold});
      }
    }
    if (out.size() != panels_.size()) {
      return failed(fault_of_panels("net.cuts",
                                    fmt::format("{} of {} panels joined", out.size(), panels_.size()),
                                    "join every panel to its neighbour by one fold"));
    }
    return out;
  }

  const Net& net_;
  Subdivision graph_;
  std::vector<bool> used_;
  Faces faces_;
  std::vector<std::size_t> panel_of_cycle_;
  std::vector<FlatPanel> panels_;
  std::vector<Link> links_;
};

}  // namespace

Result<std::vector<Panel>> split_into_panels(const Net& net, GridPoint base_point) {
  if (std::optional<Fault> fault = sheet_fault(net)) return failed(*std::move(fault));
  Result<Subdivision> graph = subdivide(net);
  if (!graph) return failed(std::move(graph).error());
  return Splitter(net, *std::move(graph)).run(base_point);
}

std::optional<Fault> fault_of(const Net& net) {
  // Any point of the sheet will do as a base: whether folds make a tree does not depend on its root.
  const GridPoint corner = net.outline.empty() ? GridPoint{} : net.outline[0];
  const Result<std::vector<Panel>> panels = split_into_panels(net, corner);
  if (panels) return std::nullopt;
  return panels.error().front();
}

}  // namespace lapwright::geom
