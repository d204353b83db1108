#include <lapwright/base/nearest.h>

#include <algorithm>
#include <vector>

namespace lapwright {

namespace {

constexpr std::size_t kLongest = 64;

char folded(char c) {
  if (c == '_' || c == ' ') return '-';
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

std::size_t edits(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = folded(a[i - 1]) == folded(b[j - 1]);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0U : 1U)});
      const bool swapped =
          i > 1 && j > 1 && folded(a[i - 1]) == folded(b[j - 2]) && folded(a[i - 2]) == folded(b[j - 1]);
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before = last;
    last = row;
  }
  return last[b.size()];
}

}  // namespace

std::optional<std::string_view> nearest(std::string_view written, std::span<const std::string_view> known) {
  if (written.size() > kLongest) return std::nullopt;
  std::optional<std::string_view> best;
  std::size_t best_edits = 0;
  for (const std::string_view word : known) {
    const std::size_t distance = edits(written, word);
    const std::size_t longer = std::max(written.size(), word.size());
    if (distance > std::max<std::size_t>(1, longer / 3) || distance >= longer) continue;
    if (best && distance >= best_edits) continue;
    best = word;
    best_edits = distance;
  }
  return best;
}

}  // namespace lapwright
