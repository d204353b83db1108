#include <lapwright/job/layout.h>

#include <algorithm>

namespace lapwright::job {

namespace {

Length right_end(const Row& row) {
  Length end = row.from - row.gap;
  for (const UnitRun& run : row.widths) end += (run.width + row.gap) * static_cast<double>(run.count);
  return end;
}

}  // namespace

std::span<const Row> rows_of_course(std::span<const Row> rows, std::int64_t course) {
  const auto first = std::lower_bound(rows.begin(), rows.end(), course,
                                      [](const Row& row, std::int64_t c) { return row.course < c; });
  const auto last = std::upper_bound(first, rows.end(), course,
                                     [](std::int64_t c, const Row& row) { return c < row.course; });
  return {first, last};
}

std::span<const Row> rows_of_course(std::span<const Row> rows, std::string_view slope, std::int64_t course) {
  const auto is_its = [&](const Row& row) { return row.slope == slope; };
  const auto first = std::find_if(rows.begin(), rows.end(), is_its);
  const auto last = std::find_if_not(first, rows.end(), is_its);
  return rows_of_course({first, last}, course);
}

std::optional<UnitAtFace> unit_at_face(const Row& row, Length u, Hand hand) {
  std::optional<UnitAtFace> best;
  Length nearest;
  Length left = row.from;
  std::int64_t number = 0;
  for (const UnitRun& run : row.widths) {
    const Length step = run.width + row.gap;
    const auto consider = [&](std::int64_t i) {
      const Length at = left + step * static_cast<double>(i);
      const Length away = abs((hand == Hand::left ? at : at + run.width) - u);
      if (best && away >= nearest) return;
      best = UnitAtFace{&row, number + i, at, run.width};
      nearest = away;
    };
    // Of equal units only those around the face can be nearest.
    const double there = std::clamp((u - left) / step, 0.0, static_cast<double>(run.count - 1));
    for (const std::int64_t i : {-1, 0, 1}) {
      consider(std::clamp<std::int64_t>(static_cast<std::int64_t>(there) + i, 0, run.count - 1));
    }
    left += step * static_cast<double>(run.count);
    number += run.count;
  }
  return best;
}

std::optional<UnitAtFace> unit_at_face(std::span<const Row> course, Length u, Hand hand) {
  const Row* best = nullptr;
  Length nearest;
  for (const Row& row : course) {
    if (row.widths.empty()) continue;
    const Length away = abs((hand == Hand::left ? row.from : right_end(row)) - u);
    if (best != nullptr && away >= nearest) continue;
    best = &row;
    nearest = away;
  }
  return best == nullptr ? std::nullopt : unit_at_face(*best, u, hand);
}

}  // namespace lapwright::job
