// The best pattern of two stages for every stock at given prices: strips over the whole width (or the whole
// length), each filled with single pieces that are trimmed to size.
#pragma once

#include "grid.h"
#include "strip_table.h"

#include <cstdint>
#include <vector>

namespace lapwright::cutting {

template <class V>
class TwoStage {
 public:
  explicit TwoStage(const Problem& problem);

  // `prices` of each type; `scale` of them to a unit of the problem's money, for the worth of what is kept.
  void price(const std::vector<V>& prices, V scale);

  // Of one stock: price of the pieces plus worth of what is kept, the most that any pattern reaches.
  V most(std::size_t stock) const;
  // The pattern that reaches it with its first cuts this way; empty sections where none is allowed.
  V most(std::size_t stock, bool across) const;
  Pattern pattern(std::size_t stock, bool across) const;

  // Steps of the tables that one pricing fills: what effort counts.
  std::int64_t work() const { return work_; }

 private:
  // Strips of one direction: `strips` fills them up to `capacity`; `stack` piles them up on the other side.
  struct Stack {
    std::int32_t capacity = 0;  // of a strip
    std::vector<V> values;      // by how far it is piled up
    std::vector<std::int16_t> last;
    std::vector<std::pair<std::int32_t, std::size_t>> strips;  // thickness, row of the table
  };
  struct Direction {
    bool allowed = true;
    StripTable<V> table;
    std::vector<StripItem<V>> items;
    std::vector<Stack> stacks;
    std::vector<std::size_t> stack_of;  // of each stock
  };
  void price(Direction& direction, const std::vector<V>& values);
  void best_end(std::size_t stock, const Direction& direction, bool across, V& best, std::int32_t& at) const;

  const Problem& problem_;
  Grid grid_;
  V scale_{};
  Direction across_;
  Direction along_;
  std::int64_t work_ = 0;
};

extern template class TwoStage<double>;
extern template class TwoStage<std::int64_t>;

// Pieces of each type that the sections yield.
std::vector<std::int32_t> counts_of(const Problem& problem, const std::vector<Section>& sections);

}  // namespace lapwright::cutting
