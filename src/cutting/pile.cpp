#include "pile.h"

#include <algorithm>
#include <cstring>
#include <numeric>

namespace lapwright::cutting {

namespace {

bool enough(const std::uint16_t* used, const PartCounts& more, const std::vector<std::uint16_t>& limit) {
  return std::all_of(more.begin(), more.end(), [&](const auto& one) {
    return used[one.first] + one.second <= limit[static_cast<std::size_t>(one.first)];
  });
}

void add(std::uint16_t* used, const PartCounts& more) {
  for (const auto& [type, count] : more) used[type] = static_cast<std::uint16_t>(used[type] + count);
}

}  // namespace

// What the densest parts bring, taken one after the other.
double Pile::surely(std::int32_t end, const std::vector<Part>& parts,
                    const std::vector<std::uint16_t>& limit) {
  scratch_.assign(types_, 0);
  double sum = 0;
  for (const std::size_t i : order_) {
    while (parts[i].size <= end && enough(scratch_.data(), *parts[i].counts, limit)) {
      add(scratch_.data(), *parts[i].counts);
      sum += static_cast<double>(parts[i].value);
      end -= parts[i].size;
    }
  }
  return sum;
}

std::int64_t Pile::fill(std::int32_t end, const std::vector<Part>& parts,
                        const std::vector<std::uint16_t>& limit, const std::vector<std::int32_t>& ends,
                        bool every) {
  types_ = limit.size();
  const auto size = static_cast<std::size_t>(end) + 1;
  values_.assign(size, -1.0F);
  if (last_.size() < size) {
    last_.resize(size);
    states_.resize(size);
  }
  if (used_.size() < size * types_) used_.resize(size * types_);
  sizes_.clear();
  worths_.clear();
  double density = 0;
  for (const Part& part : parts) {
    sizes_.push_back(part.size);
    worths_.push_back(part.value);
    density = std::max(density, static_cast<double>(part.value) / static_cast<double>(part.size));
  }
  order_.resize(parts.size());
  std::iota(order_.begin(), order_.end(), std::size_t{0});
  std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
    return static_cast<double>(parts[a].value) * parts[b].size >
           static_cast<double>(parts[b].value) * parts[a].size;
  });
  // A state that has lost more than any end can afford leads nowhere.
  double afford = every ? 1e300 : 0;
  if (!every) {
    for (const std::int32_t one : ends)
      afford = std::max(afford, density * static_cast<double>(one) - surely(one, parts, limit));
  }
  afford = afford * 1.0001 + 1e-6;

  values_[0] = 0;
  std::memset(used_.data(), 0, types_ * sizeof(std::uint16_t));
  std::int64_t work = 0;
  std::size_t best = 0;
  const std::size_t n = parts.size();
  const std::int32_t* sizes = sizes_.data();
  const float* worths = worths_.data();
  for (std::size_t x = 0; x < size; ++x) {
    const float value = values_[x];
    if (x > 0 && value <= values_[best]) {
      states_[x] = static_cast<std::int32_t>(best);
      continue;
    }
    states_[x] = static_cast<std::int32_t>(x);
    best = x;
    std::uint16_t* used = &used_[x * types_];
    if (x > 0) {
      const auto part = static_cast<std::size_t>(last_[x]);
      std::memcpy(used, &used_[(x - static_cast<std::size_t>(sizes[part])) * types_],
                  types_ * sizeof(std::uint16_t));
      add(used, *parts[part].counts);
    }
    if (density * static_cast<double>(x) - static_cast<double>(value) > afford) continue;
    float* ahead = &values_[x];
    std::int16_t* last_ahead = &last_[x];
    const auto room = static_cast<std::int32_t>(size - 1 - x);
    std::size_t i = 0;
    for (; i < n; ++i) {
      const std::int32_t step = sizes[i];
      if (step > room) break;
      const float with = value + worths[i];
      if (with <= ahead[step]) continue;
      if (!enough(used, *parts[i].counts, limit)) continue;
      ahead[step] = with;
      last_ahead[step] = static_cast<std::int16_t>(i);
    }
    work += static_cast<std::int64_t>(i) + 4;
  }
  return work + static_cast<std::int64_t>(size) / 8;
}

}  // namespace lapwright::cutting
