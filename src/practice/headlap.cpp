#include <lapwright/practice/pack.h>

#include <algorithm>

namespace lapwright::practice {

namespace {

// A tape reads slates to the millimetre: within half of one a size is the printed one.
constexpr Length kSizeNoise = Length::mm(0.5);
// Pitches closer than this are the same; below any survey's reading, above rounding of 22.5 and its like.
constexpr double kPitchNoise = 1e-9;

bool is_same(Length a, Length b) {
  return abs(a - b) <= kSizeNoise;
}
bool fits(Length a, Length b) {
  return a <= b + kSizeNoise;
}

// Same value, or the same refusal.
bool says_the_same(const HeadlapAnswer& a, const HeadlapAnswer& b) {
  if (a.headlap || b.headlap) return a.headlap == b.headlap;
  return a.first_pitch == b.first_pitch;
}

}  // namespace

// The answer of one table; empty when it does not speak of this size or pitch at all.
std::optional<HeadlapAnswer> Pack::answer(const HeadlapTable& table, Length length, Length width,
                                          double pitch) {
  if (table.ends && pitch > *table.ends + kPitchNoise) return std::nullopt;

  const HeadlapRow* exact = nullptr;
  const HeadlapRow* next_smaller = nullptr;
  const HeadlapRow* smallest = nullptr;
  const HeadlapRow* smaller = nullptr;  // the row for "anything smaller"
  const auto area = [](const HeadlapRow& row) { return row.size->first * row.size->second; };
  for (const HeadlapRow& row : table.rows) {
    if (!row.size) {
      smaller = &row;
      continue;
    }
    if (!smallest || area(row) < area(*smallest)) smallest = &row;
    const auto [row_length, row_width] = *row.size;
    if (is_same(row_length, length) && is_same(row_width, width)) exact = &row;
    if (!fits(row_length, length) || !fits(row_width, width)) continue;
    if (!next_smaller || area(row) > area(*next_smaller)) next_smaller = &row;
  }

  HeadlapAnswer answer;
  answer.table = table.table;
  answer.source = table.source;
  answer.standing = table.standing;
  answer.shown_only = table.shown_only;
  const HeadlapRow* row = exact;
  if (!row) {
    if (table.variant || table.shown_only) return std::nullopt;  // they speak of their own sizes only
    row = next_smaller ? next_smaller : smaller;
    const bool is_plainly_smaller = !next_smaller && smaller && smallest &&
                                    fits(length, smallest->size->first) &&
                                    fits(width, smallest->size->second);
    answer.size_was_between = row && !is_plainly_smaller;
  }
  if (!row) return answer;  // smaller than any row: not permitted

  answer.row = row->name;
  answer.first_pitch = row->headlaps.front().first;
  if (pitch < row->headlaps.front().first - kPitchNoise) return answer;
  for (std::size_t i = 0; i < row->headlaps.size(); ++i) {
    const auto [printed, headlap] = row->headlaps[i];
    if (pitch > printed + kPitchNoise && i + 1 < row->headlaps.size()) continue;
    answer.below = answer.above = printed;
    answer.headlap = headlap;
    if (pitch < printed - kPitchNoise) {
      const auto [printed_below, headlap_below] = row->headlaps[i - 1];
      answer.interpolated = true;
      answer.below = printed_below;
      answer.headlap =
          headlap_below + (headlap - headlap_below) * (pitch - printed_below) / (printed - printed_below);
    }
    break;
  }
  return answer;
}

std::vector<HeadlapAnswer> Pack::slate_headlaps(Length length, Length width, Angle pitch,
                                                job::Exposure exposure) const {
  const auto speaks_of = [](const HeadlapTable& table, job::Exposure wanted) {
    return std::find(table.exposures.begin(), table.exposures.end(), wanted) != table.exposures.end();
  };
  // Nobody prints a table for very severe exposure.
  const bool stands_in =
      exposure == job::Exposure::very_severe &&
      std::none_of(headlap_tables_.begin(), headlap_tables_.end(),
                   [&](const HeadlapTable& table) { return speaks_of(table, job::Exposure::very_severe); });
  const job::Exposure wanted = stands_in ? job::Exposure::severe : exposure;

  std::vector<HeadlapAnswer> answers;
  for (const HeadlapTable& table : headlap_tables_) {
    if (!speaks_of(table, wanted)) continue;
    std::optional<HeadlapAnswer> found = answer(table, length, width, pitch.in_degrees());
    if (!found) continue;
    if (table.variant && std::any_of(answers.begin(), answers.end(), [&found](const HeadlapAnswer& earlier) {
          return says_the_same(earlier, *found);
        })) {
      continue;
    }
    if (stands_in) {
      found->stands_in = true;
      found->standing = job::Standing::practice;
      found->source += "; no table is printed for very severe exposure, so the severe one stands in";
    }
    answers.push_back(std::move(*found));
  }
  return answers;
}

const HeadlapAnswer* default_headlap(const std::vector<HeadlapAnswer>& answers) {
  const auto at = std::find_if(answers.begin(), answers.end(), [](const HeadlapAnswer& answer) {
    return answer.headlap.has_value() && !answer.shown_only;
  });
  return at == answers.end() ? nullptr : &*at;
}

std::vector<Pack::SizeOffer> Pack::slate_sizes_permitted(Angle pitch, job::Exposure exposure) const {
  std::vector<SizeOffer> offers;
  for (const auto& [length, width] : slate_sizes_) {
    std::vector<HeadlapAnswer> answers = slate_headlaps(length, width, pitch, exposure);
    std::erase_if(answers, [](const HeadlapAnswer& answer) { return answer.size_was_between; });
    const HeadlapAnswer* chosen = default_headlap(answers);
    if (chosen) offers.push_back({length, width, *chosen->headlap, chosen->table});
  }
  return offers;
}

}  // namespace lapwright::practice
