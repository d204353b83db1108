// The most that one rectangle is worth however it is cut from edge to edge, for every size of rectangle at
// once.
#pragma once

#include <cstdint>
#include <vector>

namespace lapwright::cutcheck {

// A rectangle of some worth; it lies as it is given.
struct Worth {
  std::int64_t across = 0;
  std::int64_t along = 0;
  std::int64_t value = 0;
};

class CutAnyhow {
 public:
  // All sides in steps. REQUIRES every item's sides > 0.
  CutAnyhow(const std::vector<Worth>& items, std::int64_t across, std::int64_t along);
  // REQUIRES a rectangle no larger than the table.
  std::int64_t value(std::int64_t across, std::int64_t along) const {
    return table_[static_cast<std::size_t>(across * (along_ + 1) + along)];
  }

 private:
  std::int64_t along_ = 0;
  std::vector<std::int64_t> table_;  // row by row of `across`
};

}  // namespace lapwright::cutcheck
