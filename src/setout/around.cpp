#include "around.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/job/face.h>
#include <lapwright/practice/defaults.h>

#include <algorithm>
#include <utility>

namespace lapwright::setout {

namespace {

struct Unit {
  Length left;
  Length right;
};

std::vector<Unit> units_of(const job::Row& row) {
  std::vector<Unit> out;
  Length at = row.from;
  for (const job::UnitRun& run : row.widths) {
    for (std::int64_t i = 0; i < run.count; ++i) {
      out.push_back({at, at + run.width});
      at += run.width + row.gap;
    }
  }
  return out;
}

// The same bond, carried on past the row's ends as far as a raked edge needs it.
void carry_on(std::vector<Unit>& units, Length gap, Length unit, Length low, Length high) {
  if (units.empty()) return;
  if (units.front().left > low + tolerance::kGrid) {
    // The first unit was cut to its wall or is a unit and a half; whole ones stand beyond it.
    while (units.front().left > low) {
      const Length right = units.front().left - gap;
      units.insert(units.begin(), {right - unit, right});
    }
  }
  if (high > units.back().right + tolerance::kGrid) {
    units.back().right = max(units.back().right, min(units.back().left + unit, high));
    while (units.back().right < high) {
      const Length left = units.back().right + gap;
      units.push_back({left, left + unit});
    }
  }
}

// The units between `low` and `high`, those at the ends cut, as a row like `model`.
std::optional<job::Row> row_between(const job::Row& model, const std::vector<Unit>& units, Length low,
                                    Length high, const CutLimits& limits) {
  std::vector<Unit> kept;
  for (const Unit& u : units) {
    const Unit cut{max(u.left, low), min(u.right, high)};
    if (cut.right - cut.left > tolerance::kHandCut) kept.push_back(cut);
  }
  if (kept.empty()) return std::nullopt;
  // A cut that is too narrow is made with its neighbour, from a unit and a half or shared.
  const auto mend = [&](std::size_t end, std::size_t next) {
    const Length width = kept[end].right - kept[end].left;
    if (width >= limits.narrowest - tolerance::kNoise || kept.size() < 2) return;
    const Length left = min(kept[end].left, kept[next].left);
    const Length right = max(kept[end].right, kept[next].right);
    if (right - left <= limits.and_half + tolerance::kNoise) {
      kept[next] = {left, right};
      kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(end));
      return;
    }
    const Length each = (right - left - model.gap) / 2.0;
    kept[std::min(end, next)] = {left, left + each};
    kept[std::max(end, next)] = {right - each, right};
  };
  mend(0, 1);
  if (kept.size() > 1) mend(kept.size() - 1, kept.size() - 2);
  job::Row row = model;
  row.from = kept.front().left;
  row.widths.clear();
  for (const Unit& u : kept) {
    const Length width = u.right - u.left;
    if (!row.widths.empty() && abs(row.widths.back().width - width) < tolerance::kGrid) {
      row.widths.back().count += 1;
    } else {
      row.widths.push_back({width, 1});
    }
  }
  return row;
}

void shorten(job::Row& row, Length tail, Length head, const CutLimits& limits) {
  row.tail = tail;
  row.length = head - tail;
  row.nail_up = min(row.nail_up, max(row.length - limits.top_nail, row.length / 2.0));
}

}  // namespace

Surroundings surroundings_of(const job::Survey& survey, std::size_t index, const practice::Pack& pack) {
  const job::Slope& slope = survey.slopes[index];
  Surroundings out;
  std::vector<job::Junction> junctions = slope.junctions;
  for (job::Junction& part : job::parts_from_across(survey, slope)) junctions.push_back(std::move(part));
  for (const job::Junction& junction : junctions) {
    const Length gap = practice::widest_gap(junction, pack);
    if (junction.kind == job::JunctionKind::stack) {
      const std::vector<job::Face> faces = faces_of(slope, junction);
      const job::Face& front = faces.front();
      Block block{front.from.u - gap, front.to.u + gap, front.from.s - gap, std::nullopt};
      if (faces.back().kind == job::FaceKind::back) {
        block.behind = faces.back().from.s + pack.length("back_gutter.sole") / cos(slope.pitch.value);
      }
      out.blocks.push_back(block);
    }
    if (junction.kind != job::JunctionKind::wall) continue;
    for (const job::Face& face : faces_of(slope, junction)) {
      if (face.kind != job::FaceKind::side && face.kind != job::FaceKind::skew) continue;
      const double drift = (face.to.u - face.from.u) / (face.to.s - face.from.s);
      const Length clear = face.hand == job::Hand::left ? gap : -gap;
      out.edges.push_back({face.hand, face.from.s, face.to.s, face.from.u + clear, drift});
    }
  }
  for (const job::SlopeJoin& join : job::joins_of(survey, index)) {
    const job::JoinSide& side = join.line.sides[join.side];
    if (join.line.join->kind == job::JoinKind::ridge) continue;
    Length clear;
    if (join.line.join->kind == job::JoinKind::valley) {
      const bool flat = slope.pitch.value < Angle::degrees(pack.number("valley.clear_flat_below"));
      clear = pack.length(flat ? "valley.clear_flat" : "valley.clear") / 2.0 * hypotenuse(1.0, side.drift);
    }
    const bool left = side.hand == job::Hand::left;
    const Length at = left ? clear : slope.width.value - clear;
    out.edges.push_back({side.hand, Length{}, slope.rafter.value, at, side.drift});
  }
  std::sort(out.blocks.begin(), out.blocks.end(), [](const Block& a, const Block& b) {
    return a.left != b.left ? a.left < b.left : a.front < b.front;
  });
  return out;
}

std::vector<job::Row> rows_around(const job::Row& row, Length next_tail, const Surroundings& around,
                                  const CutLimits& limits) {
  const Length head = row.tail + row.length;
  std::vector<Unit> units = units_of(row);
  if (units.empty()) return {row};
  Length low = units.front().left;
  Length high = units.back().right;
  std::optional<job::Row::Rake> left_rake;
  std::optional<job::Row::Rake> right_rake;
  bool touched = false;
  for (const Edge& edge : around.edges) {
    if (edge.from >= next_tail - tolerance::kNoise || edge.to <= row.tail + tolerance::kNoise) continue;
    const Length a = edge.at(row.tail);
    const Length b = edge.at(head);
    touched = true;
    if (edge.hand == job::Hand::left) {
      low = min(a, b);
      if (edge.drift != 0) left_rake = job::Row::Rake{a, b};
    } else {
      high = max(a, b);
      if (edge.drift != 0) right_rake = job::Row::Rake{a, b};
    }
  }
  if (touched)
    carry_on(units, row.gap,
             row.widths.front().width > limits.and_half - tolerance::kNoise && row.widths.size() > 1
                 ? row.widths[1].width
                 : row.widths.front().width,
             low, high);
  std::vector<const Block*> standing;
  for (const Block& block : around.blocks) {
    const bool beside = block.front < head - tolerance::kNoise &&
                        (!block.behind || row.tail < *block.behind - tolerance::kNoise);
    if (beside && block.left < high && block.right > low) standing.push_back(&block);
  }
  if (!touched && standing.empty()) return {row};
  std::vector<job::Row> out;
  const auto add = [&](std::optional<job::Row> part) {
    if (part) out.push_back(std::move(*part));
  };
  Length at = low;
  for (const Block* block : standing) {
    if (block->left > at) {
      auto part = row_between(row, units, at, block->left, limits);
      if (part && at == low) part->left_rake = left_rake;
      add(std::move(part));
    }
    const Length from = max(at, block->left);
    const Length to = min(high, block->right);
    if (row.tail < block->front - tolerance::kHandCut) {
      auto part = row_between(row, units, from, to, limits);
      if (part) shorten(*part, row.tail, min(head, block->front), limits);
      add(std::move(part));
    }
    if (block->behind && head > *block->behind + tolerance::kHandCut) {
      auto part = row_between(row, units, from, to, limits);
      if (part) shorten(*part, max(row.tail, *block->behind), head, limits);
      add(std::move(part));
    }
    at = max(at, block->right);
  }
  if (at < high) {
    auto part = row_between(row, units, at, high, limits);
    if (part && at == low) part->left_rake = left_rake;
    if (part) part->right_rake = right_rake;
    add(std::move(part));
  }
  return out;
}

}  // namespace lapwright::setout
