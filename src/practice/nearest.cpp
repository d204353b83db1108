#include "nearest.h"

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <numeric>

namespace lapwright::practice {

namespace {

// No name is near this long; what is beyond it says nothing and would only cost time.
constexpr std::size_t kMostLetters = 80;

std::size_t changes(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t swapped = diagonal + (a[i] == b[j] ? 0U : 1U);
      diagonal = row[j + 1];
      row[j + 1] = std::min({swapped, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

}  // namespace

std::string_view nearest(std::string_view typed, const std::vector<std::string_view>& names) {
  assert(!names.empty());
  const std::string_view wanted = typed.substr(0, kMostLetters);
  std::string_view best = names.front();
  std::size_t fewest = changes(wanted, best);
  for (const std::string_view name : names) {
    const std::size_t count = changes(wanted, name);
    if (count < fewest) {
      fewest = count;
      best = name;
    }
  }
  return best;
}

}  // namespace lapwright::practice
