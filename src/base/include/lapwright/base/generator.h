// Random numbers for tests and sampled runs: one small generator, the same stream everywhere.
//
// The standard distributions differ between libraries, so ranges are drawn here. SplitMix64 (public algorithm
// by Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014): 64 bits of state, good
// enough for sampling surveys, not for secrets.
#pragma once

#include <cstdint>

namespace lapwright {

class Generator {
 public:
  explicit constexpr Generator(std::uint64_t seed) : state_(seed) {}

  constexpr std::uint64_t next() {
    state_ += 0x9E3779B97F4A7C15ULL;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31U);
  }

  // Uniform in [low, high], both included. REQUIRES low <= high and high − low < 2^62. The bias of the
  // remainder is below 2^-40 for the ranges used here.
  constexpr std::int64_t between(std::int64_t low, std::int64_t high) {
    const auto width = static_cast<std::uint64_t>(high - low) + 1U;
    return low + static_cast<std::int64_t>(next() % width);
  }

  // Uniform in [0, 1), 53 bits.
  constexpr double unit() { return static_cast<double>(next() >> 11U) * 0x1.0p-53; }

  constexpr bool chance(double p) { return unit() < p; }

 private:
  std::uint64_t state_;
};

}  // namespace lapwright
