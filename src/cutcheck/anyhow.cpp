#include "anyhow.h"

#include <algorithm>
#include <cstddef>

namespace lapwright::cutcheck {

CutAnyhow::CutAnyhow(const std::vector<Worth>& items, std::int64_t across, std::int64_t along)
    : along_(along), table_(static_cast<std::size_t>((across + 1) * (along + 1)), 0) {
  const auto row = [&](std::int64_t w) { return &table_[static_cast<std::size_t>(w * (along + 1))]; };
  for (const Worth& item : items) {
    if (item.across > across || item.along > along) continue;
    std::int64_t& best = row(item.across)[item.along];
    best = std::max(best, item.value);
  }
  std::vector<std::int64_t> places;  // where a row rises: a cut anywhere else only wastes
  for (std::int64_t w = 1; w <= across; ++w) {
    std::int64_t* now = row(w);
    const std::int64_t* narrower = row(w - 1);
    for (std::int64_t h = 0; h <= along; ++h) now[h] = std::max(now[h], narrower[h]);
    for (std::int64_t x = 1; 2 * x <= w; ++x) {
      const std::int64_t* one = row(x);
      const std::int64_t* other = row(w - x);
      for (std::int64_t h = 0; h <= along; ++h) now[h] = std::max(now[h], one[h] + other[h]);
    }
    places.clear();
    for (std::int64_t h = 1; h <= along; ++h) {
      std::int64_t best = std::max(now[h], now[h - 1]);
      for (const std::int64_t y : places) {
        if (2 * y > h) break;
        best = std::max(best, now[y] + now[h - y]);
      }
      now[h] = best;
      if (best > now[h - 1]) places.push_back(h);
    }
  }
}

}  // namespace lapwright::cutcheck
