// The best way to cut one rectangle by straight cuts from edge to edge, as often as one likes: the unbounded
// guillotine knapsack, for every size of rectangle at once.
//
// One dynamic programme over the places that sums of sides can reach (any plan can be pushed there), whole
// numbers only: what it gives is exact.
#pragma once

#include <cstdint>
#include <vector>

namespace lapwright::cutting {

class GuillotineTable {
 public:
  struct Item {
    std::int32_t across = 0;
    std::int32_t along = 0;
  };
  // Items lie as given: a piece that may turn is two items. REQUIRES sides > 0.
  GuillotineTable(std::vector<Item> items, std::int32_t across, std::int32_t along);

  // `values` of each item, >= 0. REQUIRES that no rectangle's best exceeds 2^31 − 1.
  void fill(const std::vector<std::int32_t>& values);

  // Of a rectangle that is at most as large as the table.
  std::int32_t value(std::int32_t across, std::int32_t along) const;
  std::vector<std::int32_t> counts(std::int32_t across, std::int32_t along) const;  // of each item

  // Steps that one fill takes, known beforehand.
  std::int64_t work() const;

 private:
  struct Axis {
    std::vector<std::int32_t> places;    // ascending, from 0
    std::vector<std::int32_t> place_at;  // of each length: index of the last place that is not beyond it
    bool dense = false;                  // every length is a place
  };
  static Axis axis(const std::vector<std::int32_t>& sides, std::int32_t end);
  std::int32_t at(std::size_t i, std::size_t j) const { return values_[i * across_.places.size() + j]; }
  void count(std::size_t i, std::size_t j, std::vector<std::int32_t>& out) const;

  std::vector<Item> items_;
  Axis along_;   // rows
  Axis across_;  // columns
  std::vector<std::int32_t> item_values_;
  std::vector<std::int32_t> values_;
};

}  // namespace lapwright::cutting
