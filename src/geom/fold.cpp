#include <lapwright/geom/net.h>

#include "segments.h"

#include <algorithm>
#include <cassert>

namespace lapwright::geom {

namespace {

Vec3 placed(const Frame& frame, GridPoint p) {
  return frame.at(to_length(p.x).in_mm(), to_length(p.y).in_mm());
}

// Distance from the fold's line, times the fold's length; beside its ends still counts, as rounding puts ends
// there.
double off_line(GridPoint p, const Fold& fold) {
  const auto cross = static_cast<double>(cross_of(fold.from, fold.to, p));
  return cross < 0 ? -cross : cross;
}

// An edge that may be the hinge, and how far its farther end is from the fold's line.
struct Candidate {
  double off = -1;  // none yet
  bool along = true;
};

void consider(const Ring& ring, const Fold& fold, Candidate& best) {
  const std::int64_t fold_squared = dot_of(fold.from, fold.to, fold.to);
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const GridPoint a = ring[i];
    const GridPoint b = ring[i + 1 == ring.size() ? 0 : i + 1];
    const std::int64_t a_along = dot_of(fold.from, fold.to, a);
    const std::int64_t b_along = dot_of(fold.from, fold.to, b);
    // The middle of a hinge is beside the fold, not beyond its ends, where another edge on the same line may
    // be.
    const std::int64_t middle = a_along / 2 + b_along / 2;
    if (middle <= 0 || middle >= fold_squared) continue;
    const double off = std::max(off_line(a, fold), off_line(b, fold));
    if (best.off < 0 || off < best.off) best = {off, b_along > a_along};
  }
}

// True when the panel lies to the left of from → to: its rings have its inside on the left, so the way that
// they run along the hinge decides. The hinge is the edge nearest to the fold's line.
bool lies_left(const Panel& panel, const Fold& fold) {
  Candidate best;
  consider(panel.ring, fold, best);
  for (const Ring& hole : panel.holes) consider(hole, fold, best);
  return best.along;
}

}  // namespace

std::vector<Frame> fold_panels(const Net& net, const std::vector<Panel>& panels, const Frame& base) {
  std::vector<Frame> frames;
  frames.reserve(panels.size());
  for (const Panel& panel : panels) {
    if (!panel.parent) {
      frames.push_back(base);
      continue;
    }
    assert(*panel.parent < frames.size() && panel.hinge);
    const Frame& parent = frames[*panel.parent];
    const Fold& fold = net.folds[*panel.hinge];
    // By the right-hand rule, turning about from → to lifts what lies left of it towards the outward face.
    const bool positive = lies_left(panel, fold) == fold.up;
    frames.push_back(turned(parent, placed(parent, fold.from), placed(parent, fold.to),
                            positive ? fold.angle : -fold.angle));
  }
  return frames;
}

}  // namespace lapwright::geom
