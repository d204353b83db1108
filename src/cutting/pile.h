// Parts laid side by side along a line, as much value as they bring, no type of piece used more often than is
// wanted.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace lapwright::cutting {

// Pieces of a part: active type, how many.
using PartCounts = std::vector<std::pair<std::int16_t, std::uint16_t>>;

class Pile {
 public:
  struct Part {
    std::int32_t size = 0;
    float value = 0;
    const PartCounts* counts = nullptr;
  };

  // The best piles on 0 to `end`; of the `ends` only those are asked for afterwards, unless `every` is set.
  // Parts by size, ascending. Returns the steps it took.
  std::int64_t fill(std::int32_t end, const std::vector<Part>& parts, const std::vector<std::uint16_t>& limit,
                    const std::vector<std::int32_t>& ends, bool every);

  float value(std::int32_t x) const { return values_[state(x)]; }
  // Pieces of each active type.
  const std::uint16_t* used(std::int32_t x) const { return &used_[state(x) * types_]; }
  // Where the last part ends: <= x.
  std::int32_t reach(std::int32_t x) const { return states_[static_cast<std::size_t>(x)]; }
  // Hands over each part from the last to the first.
  template <class Take>
  void trace(std::int32_t x, Take take) const {
    std::size_t at = state(x);
    while (at > 0) {
      const auto part = static_cast<std::size_t>(last_[at]);
      take(part);
      at -= static_cast<std::size_t>(sizes_[part]);
    }
  }

 private:
  std::size_t state(std::int32_t x) const {
    return static_cast<std::size_t>(states_[static_cast<std::size_t>(x)]);
  }
  double surely(std::int32_t end, const std::vector<Part>& parts, const std::vector<std::uint16_t>& limit);

  std::size_t types_ = 0;
  std::vector<float> values_;
  std::vector<std::int16_t> last_;
  std::vector<std::int32_t> states_;  // the last x with more value than all before it
  std::vector<std::uint16_t> used_;
  std::vector<std::int32_t> sizes_;
  std::vector<float> worths_;
  std::vector<std::uint16_t> scratch_;
  std::vector<std::size_t> order_;
};

}  // namespace lapwright::cutting
