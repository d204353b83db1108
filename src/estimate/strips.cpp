#include <lapwright/estimate/strips.h>

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>

#include <algorithm>
#include <functional>

namespace lapwright::estimate {

std::vector<RollCount> rolls_for(std::vector<Length> pieces, std::vector<Length> sold) {
  if (pieces.empty() || sold.empty()) return {};
  std::stable_sort(pieces.begin(), pieces.end(), std::greater<>());
  std::stable_sort(sold.begin(), sold.end());
  if (pieces.front() > sold.back() + tolerance::kNoise) return {};
  std::vector<Length> used;
  for (const Length piece : pieces) {
    const auto roll = std::find_if(used.begin(), used.end(), [&](Length taken) {
      return taken + piece <= sold.back() + tolerance::kNoise;
    });
    if (roll == used.end()) {
      used.push_back(piece);
    } else {
      *roll += piece;
    }
  }
  std::vector<RollCount> out;
  for (auto length = sold.rbegin(); length != sold.rend(); ++length) {
    const auto shorter = length + 1;
    const auto needs = std::count_if(used.begin(), used.end(), [&](Length taken) {
      return taken <= *length + tolerance::kNoise &&
             (shorter == sold.rend() || taken > *shorter + tolerance::kNoise);
    });
    if (needs > 0) out.push_back({*length, needs});
  }
  return out;
}

Length left_over(const std::vector<RollCount>& rolls, const std::vector<Length>& pieces) {
  Length left;
  for (const RollCount& roll : rolls) left += roll.length * static_cast<double>(roll.count);
  for (const Length piece : pieces) left = left - piece;
  return left;
}

std::int64_t blanks_from(Length roll_length, Length roll_width, Length blank_length, Length blank_width) {
  const auto rows = [&](Length along, Length across) {
    return whole_down(roll_length / along) * whole_down(roll_width / across);
  };
  return std::max(rows(blank_length, blank_width), rows(blank_width, blank_length));
}

}  // namespace lapwright::estimate
