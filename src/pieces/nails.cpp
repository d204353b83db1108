#include "nails.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/geom/polygon.h>

#include <algorithm>
#include <cstdint>
#include <limits>
#include <vector>

namespace lapwright::pieces {

namespace {

// A leg as it lies: a box in the slope's plane.
struct Leg {
  std::int64_t course;
  double u_low, u_high;
  double s_low, s_high;
};

// The part of the net that lies on the roof: everything on the base panel's side of the first fold. A
// soaker's leg is a box, so its far corners are the outline's points at or below the fold.
Leg leg_of(const job::Piece& piece, const job::Placement& placement) {
  const double fold_y = geom::to_length(piece.net.folds.front().from.y).in_mm();
  Leg leg{placement.course, 0, 0, 0, 0};
  bool first = true;
  for (const geom::GridPoint p : piece.net.outline) {
    const double x = geom::to_length(p.x).in_mm();
    const double y = geom::to_length(p.y).in_mm();
    if (y > fold_y) continue;
    const geom::Vec3 at = placement.frame.at(x, y);
    if (first) {
      leg.u_low = leg.u_high = at.x;
      leg.s_low = leg.s_high = at.y;
      first = false;
    }
    leg.u_low = std::min(leg.u_low, at.x);
    leg.u_high = std::max(leg.u_high, at.x);
    leg.s_low = std::min(leg.s_low, at.y);
    leg.s_high = std::max(leg.s_high, at.y);
  }
  // A hook turns down over the head of the unit below: it does not lie on the slope.
  for (std::size_t i = 1; i < piece.net.folds.size(); ++i) {
    const geom::Fold& fold = piece.net.folds[i];
    const geom::Vec3 at =
        placement.frame.at(geom::to_length(fold.from.x).in_mm(), geom::to_length(fold.from.y).in_mm());
    leg.s_high = std::min(leg.s_high, at.y);
  }
  return leg;
}

struct UnitEdges {
  std::int64_t number;
  double left, right;
};

// The units of a row that reach into [u_low, u_high].
std::vector<UnitEdges> units_near(const job::Row& row, double u_low, double u_high) {
  std::vector<UnitEdges> out;
  double at = row.from.in_mm();
  std::int64_t number = 0;
  for (const job::UnitRun& run : row.widths) {
    const double width = run.width.in_mm();
    const double pitch = width + row.gap.in_mm();
    // Skip whole runs that end short of the leg.
    std::int64_t i = 0;
    if (at + width < u_low) i = std::min(run.count, static_cast<std::int64_t>((u_low - at - width) / pitch));
    for (; i < run.count; ++i) {
      const double left = at + pitch * static_cast<double>(i);
      if (left > u_high) break;
      if (left + width >= u_low) out.push_back({number + i, left, left + width});
    }
    at += pitch * static_cast<double>(run.count);
    number += run.count;
  }
  return out;
}

double end_of(const job::Row& row) {
  double at = row.from.in_mm();
  for (const job::UnitRun& run : row.widths)
    at += (run.width + row.gap).in_mm() * static_cast<double>(run.count);
  return at;
}

}  // namespace

void keep_nails_clear(const std::vector<job::Piece>& pieces, std::vector<job::Row>& rows) {
  std::vector<Leg> legs;
  for (const job::Piece& piece : pieces) {
    if (piece.kind != "soaker") continue;
    for (const job::Placement& placement : piece.placements) legs.push_back(leg_of(piece, placement));
  }
  std::sort(legs.begin(), legs.end(), [](const Leg& a, const Leg& b) {
    return a.course != b.course ? a.course < b.course : a.u_low < b.u_low;
  });
  const double margin = tolerance::kHandCut.in_mm();
  // Legs that end below the nails of a row and of every later one need not be looked at again. Nails do not
  // climb from row to row (those of units cut in front of a stack lie lower than their neighbours'), so the
  // lowest of what is still to come decides. That keeps the scan linear in courses.
  std::vector<double> lowest(rows.size() + 1, std::numeric_limits<double>::infinity());
  for (std::size_t r = rows.size(); r-- > 0;) {
    lowest[r] = std::min(lowest[r + 1], (rows[r].tail + rows[r].nail_up).in_mm());
  }
  std::size_t start = 0;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    job::Row& row = rows[r];
    if (row.course < 0 || !row.nailed) continue;
    const double nail_s = (row.tail + row.nail_up).in_mm();
    const double row_low = row.from.in_mm() - margin;
    const double row_high = end_of(row) + margin;
    while (start < legs.size() && legs[start].s_high + margin < lowest[r] && legs[start].course < row.course)
      ++start;
    for (std::size_t i = start; i < legs.size() && legs[i].course <= row.course; ++i) {
      const Leg& leg = legs[i];
      if (nail_s < leg.s_low - margin || nail_s > leg.s_high + margin) continue;
      if (leg.u_high < row_low || leg.u_low > row_high) continue;  // beside another of the course's rows
      for (const UnitEdges& unit : units_near(row, leg.u_low - margin, leg.u_high + margin)) {
        const double in = std::min(row.nail_in.in_mm(), (unit.right - unit.left) / 4.0);
        const auto check = [&](double u, job::Hand side) {
          if (u < leg.u_low - margin || u > leg.u_high + margin) return;
          for (const auto& left_out : row.nails_left_out) {
            if (left_out.unit == unit.number && left_out.side == side) return;
          }
          row.nails_left_out.push_back({unit.number, side});
        };
        check(unit.left + in, job::Hand::left);
        check(unit.right - in, job::Hand::right);
      }
    }
  }
}

}  // namespace lapwright::pieces
