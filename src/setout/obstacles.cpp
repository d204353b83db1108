#include "obstacles.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/job/join.h>
#include <lapwright/practice/defaults.h>

#include <algorithm>
#include <utility>

namespace lapwright::setout {

namespace {

using job::Face;
using job::FaceKind;
using job::FootPoint;
using job::Hand;
using job::JunctionKind;

bool same(Length a, Length b) {
  return abs(a - b) <= tolerance::kGrid;
}

bool same(const FootPoint& a, const FootPoint& b) {
  return same(a.u, b.u) && same(a.s, b.s);
}

bool is_level(const Face& face) {
  return face.kind == FaceKind::top || face.kind == FaceKind::back || face.kind == FaceKind::front;
}

class Builder {
 public:
  Builder(const job::Survey& survey, std::size_t index, const practice::Pack& pack)
      : survey_(survey), index_(index), slope_(survey.slopes[index]), pack_(pack) {}

  Obstacles build() {
    out_.junctions = slope_.junctions;
    for (job::Junction& part : job::parts_from_across(survey_, slope_))
      out_.junctions.push_back(std::move(part));
    out_.reaches.resize(out_.junctions.size());
    for (std::size_t i = 0; i < out_.junctions.size(); ++i) {
      const job::Junction& j = out_.junctions[i];
      if (j.kind == JunctionKind::side) {
        add_edge_wall(j.hand, j.from, j.to.value_or(slope_.rafter.value), i);
      } else if (j.kind == JunctionKind::stack) {
        add_stack(i);
      } else if (j.kind == JunctionKind::wall) {
        add_line(i);
      }
    }
    add_joins();
    // The courses are met from the eaves up.
    std::stable_sort(out_.blocks.begin(), out_.blocks.end(),
                     [](const Block& a, const Block& b) { return a.front < b.front; });
    std::stable_sort(out_.sides.begin(), out_.sides.end(),
                     [](const Side& a, const Side& b) { return a.foot.front().s < b.foot.front().s; });
    return std::move(out_);
  }

 private:
  // Up the slope; asked for only where there is one.
  Length gutter() const { return pack_.length("back_gutter.sole") / cos(slope_.pitch.value); }

  void reach(std::size_t junction, Length from, Length to) {
    Obstacles::Reach& r = out_.reaches[junction];
    const bool first = r.from == r.to;
    r.from = first ? from : min(r.from, from);
    r.to = first ? to : max(r.to, to);
  }

  void add_edge_wall(Hand hand, Length from, Length to, std::size_t junction) {
    out_.walls.push_back({hand, from, to, junction});
    reach(junction, from, to);
  }

  void add_stack(std::size_t junction) {
    const auto faces = job::faces_of(slope_, out_.junctions[junction]);
    Block block;
    block.junction = junction;
    block.begin = kFarAway;  // through the ridge: nothing is laid above it
    for (const Face& face : faces) {
      if (face.kind == FaceKind::front) {
        block.left = face.from.u;
        block.right = face.to.u;
        block.front = face.from.s;
      } else if (face.kind == FaceKind::side) {
        block.back = face.to.s;
      } else if (face.kind == FaceKind::back) {
        block.begin = face.from.s + gutter();
      }
    }
    out_.blocks.push_back(block);
    reach(junction, block.front, min(block.back, slope_.rafter.value));
  }

  // A line of stretches: level ones hide what lies behind them, the others part the roof from the masonry on
  // their far hand.
  void add_line(std::size_t junction) {
    const auto faces = job::faces_of(slope_, out_.junctions[junction]);
    if (faces.empty()) return;
    Length low = faces.front().from.s;
    Length high = low;
    for (const Face& face : faces) {
      low = min(low, min(face.from.s, face.to.s));
      high = max(high, max(face.from.s, face.to.s));
    }
    const auto& line = out_.junctions[junction].line;
    const bool bounds = on_outline(line.front()) || on_outline(line.back());
    const std::size_t first_side = out_.sides.size();
    for (std::size_t i = 0; i < faces.size(); ++i) {
      const Face& face = faces[i];
      if (is_level(face)) {
        add_level(faces, i, low, high, junction);
        continue;
      }
      reach(junction, face.from.s, face.to.s);
      if (stands_at_edge(face)) {
        add_edge_wall(face.hand, face.from.s, face.to.s, junction);
        continue;
      }
      if (joins_on(first_side, face)) continue;
      Side side;
      side.hand = face.hand;
      side.foot = {face.from, face.to};
      side.bounds = bounds;
      side.junction = junction;
      out_.sides.push_back(std::move(side));
    }
  }

  bool on_outline(const job::Junction::LinePoint& p) const {
    return same(p.u, Length{}) || same(p.u, slope_.width.value) || same(p.s, Length{}) ||
           same(p.s, slope_.rafter.value);
  }

  bool stands_at_edge(const Face& face) const {
    const Length edge = face.hand == Hand::left ? Length{} : slope_.width.value;
    return same(face.from.u, edge) && same(face.to.u, edge);
  }

  // Stretches that follow each other on one hand are one side, so that a course crosses it once.
  bool joins_on(std::size_t first_side, const Face& face) {
    if (out_.sides.size() == first_side) return false;
    Side& last = out_.sides.back();
    if (last.hand != face.hand) return false;
    if (same(last.foot.back(), face.from)) {
      last.foot.push_back(face.to);
      return true;
    }
    if (same(last.foot.front(), face.to)) {
      last.foot.insert(last.foot.begin(), face.from);
      return true;
    }
    return false;
  }

  void add_level(const std::vector<Face>& faces, std::size_t i, Length low, Length high,
                 std::size_t junction) {
    const Face& face = faces[i];
    Block block;
    block.junction = junction;
    block.left = face.from.u;
    block.right = face.to.u;
    const Length s = face.from.s;
    if (face.roof_below) {
      block.front = s;
      block.back = high > s + tolerance::kGrid ? high : kFarAway;
      block.begin = block.back;
    } else {
      block.front = low < s - tolerance::kGrid ? low : Length{} - kFarAway;
      block.back = s;
      block.begin = s + gutter();
      block.has_front = false;
    }
    // Where the line turns away from the roof at an end, the masonry goes on past that corner.
    for (const std::size_t k : {i - 1, i + 1}) {
      if (k >= faces.size() || is_level(faces[k])) continue;
      const Length middle = (faces[k].from.s + faces[k].to.s) / 2.0;
      if (face.roof_below ? middle > s : middle < s) continue;
      const bool at_left = same(faces[k].from.u, face.from.u) || same(faces[k].to.u, face.from.u);
      (at_left ? block.left : block.right) = at_left ? Length{} - kFarAway : kFarAway;
    }
    out_.blocks.push_back(block);
  }

  void add_joins() {
    for (const job::SlopeJoin& there : job::joins_of(survey_, index_)) {
      const job::Join& join = *there.line.join;
      if (join.kind == job::JoinKind::ridge) continue;
      const job::JoinSide& side = there.line.sides[there.side];
      JoinEdge edge;
      edge.drift = side.drift;
      edge.corner = side.hand == Hand::left ? Length{} : slope_.width.value;
      edge.run = side.run;
      const bool open = join.kind == job::JoinKind::valley &&
                        join.detail.value_or(job::JoinDetail::open_valley) == job::JoinDetail::open_valley;
      if (open) edge.clear = clear_of(there.line) / 2.0;
      out_.joins[side.hand == Hand::left ? 0 : 1] = edge;
    }
  }

  // The flatter of the two slopes decides how wide the water runs.
  Length clear_of(const job::JoinLine& line) const {
    const Angle a = survey_.slopes[line.sides[0].slope].pitch.least();
    const Angle b = survey_.slopes[line.sides[1].slope].pitch.least();
    const Angle flattest = b < a ? b : a;
    const bool flat = flattest < Angle::degrees(pack_.number("valley.clear_flat_below"));
    return pack_.length(flat ? "valley.clear_flat" : "valley.clear");
  }

  const job::Survey& survey_;
  std::size_t index_;
  const job::Slope& slope_;
  const practice::Pack& pack_;
  Obstacles out_;
};

}  // namespace

Obstacles obstacles_of(const job::Survey& survey, std::size_t slope, const practice::Pack& pack) {
  return Builder(survey, slope, pack).build();
}

}  // namespace lapwright::setout
