// The trigonometry over a grid of arguments, as one number per function: what a native and a WebAssembly
// build must agree on to the last bit.
#pragma once

#include <lapwright/base/generator.h>
#include <lapwright/base/trig.h>

#include <array>
#include <bit>
#include <cstdint>
#include <string_view>

namespace lapwright::parity {

struct Function {
  std::string_view name;
  double (*of)(double a, double b);
  double low;
  double high;
};

inline constexpr std::array<Function, 9> kFunctions{{
    {"sin", [](double a, double) { return sin_deg(a); }, -720, 720},
    {"cos", [](double a, double) { return cos_deg(a); }, -720, 720},
    {"tan", [](double a, double) { return tan_deg(a); }, -720, 720},
    {"asin", [](double a, double) { return asin_deg(a); }, -1, 1},
    {"acos", [](double a, double) { return acos_deg(a); }, -1, 1},
    {"atan", [](double a, double) { return atan_deg(a); }, -50, 50},
    {"atan2", [](double a, double b) { return atan2_deg(a, b); }, -1000, 1000},
    {"square-root", [](double a, double) { return square_root(a); }, 0, 1e8},
    {"hypotenuse", [](double a, double b) { return hypotenuse(a, b); }, -1e5, 1e5},
}};

// FNV-1a (public algorithm by Fowler, Noll and Vo) over the bits of each result: a regular grid first, which
// holds the exact angles, then drawn arguments.
inline std::uint64_t bits_of(const Function& function) {
  constexpr int kGrid = 5760;  // quarter degrees over −720 … 720
  constexpr int kDrawn = 200000;
  std::uint64_t hash = 0xCBF29CE484222325ULL;
  const auto take = [&](double value) {
    auto bits = std::bit_cast<std::uint64_t>(value);
    for (int byte = 0; byte < 8; ++byte) {
      hash = (hash ^ (bits & 0xFFU)) * 0x100000001B3ULL;
      bits >>= 8U;
    }
  };
  const double width = function.high - function.low;
  for (int i = 0; i <= kGrid; ++i) {
    take(function.of(function.low + width * i / kGrid, function.high - width * i / kGrid / 3));
  }
  Generator generator(20260101);
  for (int i = 0; i < kDrawn; ++i) {
    const double a = function.low + width * generator.unit();
    const double b = function.low + width * generator.unit();
    take(function.of(a, b));
  }
  return hash;
}

}  // namespace lapwright::parity
