// One strip filled end to end, for every thickness and every length at once: a knapsack built up thickness by
// thickness.
//
// Items are sorted by thickness, so that row k holds the best filling of a strip that is as thick as item k.
// V is the type of values: float to search with, double to price columns, std::int64_t to prove.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace lapwright::cutting {

template <class V>
struct StripItem {
  std::int32_t thickness = 0;
  std::int32_t length = 0;
  std::int32_t most = 0;  // copies in one strip
  V value{};
  std::int32_t option = 0;
  bool turned = false;
};

template <class V>
class StripTable {
 public:
  // REQUIRES items sorted by thickness, lengths > 0. Filled for lengths 0 to `capacity`. Values below 0 are
  // never taken.
  void fill(const std::vector<StripItem<V>>& items, std::int32_t capacity) {
    items_ = items;
    wide_ = static_cast<std::size_t>(capacity) + 1;
    values_.resize((items.size() + 1) * wide_);
    taken_.resize((items.size() + 1) * wide_);
    std::fill(values_.begin(), values_.begin() + static_cast<std::ptrdiff_t>(wide_), V{});
    for (std::size_t k = 0; k < items.size(); ++k) add(k);
  }

  std::size_t rows() const { return items_.size(); }
  const StripItem<V>& item(std::size_t k) const { return items_[k]; }
  // Best with the items 0 to k.
  V value(std::size_t k, std::int32_t length) const {
    return values_[(k + 1) * wide_ + static_cast<std::size_t>(length)];
  }

  // Hands `take` each item of the filling and its copies, thickest first.
  template <class Take>
  void trace(std::size_t k, std::int32_t length, Take take) const {
    auto left = static_cast<std::size_t>(length);
    for (std::size_t row = k + 1; row > 0; --row) {
      const std::uint16_t copies = taken_[row * wide_ + left];
      if (copies == 0) continue;
      take(row - 1, static_cast<std::int32_t>(copies));
      left -= static_cast<std::size_t>(copies) * static_cast<std::size_t>(items_[row - 1].length);
    }
  }

 private:
  void add(std::size_t k) {
    const StripItem<V>& item = items_[k];
    const V* before = &values_[k * wide_];
    V* now = &values_[(k + 1) * wide_];
    std::uint16_t* taken = &taken_[(k + 1) * wide_];
    const auto step = static_cast<std::size_t>(item.length);
    const std::size_t plain = std::min(step, wide_);
    for (std::size_t x = 0; x < plain; ++x) {
      now[x] = before[x];
      taken[x] = 0;
    }
    if (item.value <= V{} || item.most <= 0) {
      for (std::size_t x = plain; x < wide_; ++x) {
        now[x] = before[x];
        taken[x] = 0;
      }
      return;
    }
    const auto most = static_cast<std::size_t>(item.most);
    if (most * step + step > wide_ - 1) {
      for (std::size_t x = plain; x < wide_; ++x) {
        const V with = now[x - step] + item.value;
        const bool better = with > before[x];
        now[x] = better ? with : before[x];
        taken[x] = better ? static_cast<std::uint16_t>(taken[x - step] + 1) : std::uint16_t{0};
      }
      return;
    }
    for (std::size_t x = plain; x < wide_; ++x) {
      V best = before[x];
      std::uint16_t copies = 0;
      V sum{};
      for (std::size_t c = 1, at = step; c <= most && at <= x; ++c, at += step) {
        sum += item.value;
        const V with = before[x - at] + sum;
        if (with > best) {
          best = with;
          copies = static_cast<std::uint16_t>(c);
        }
      }
      now[x] = best;
      taken[x] = copies;
    }
  }

  std::vector<StripItem<V>> items_;
  std::size_t wide_ = 0;
  std::vector<V> values_;
  std::vector<std::uint16_t> taken_;
};

}  // namespace lapwright::cutting
