#include "possible.h"

#include <lapwright/base/numbers.h>

#include <fmt/format.h>

#include <array>
#include <utility>

namespace lapwright::practice {

namespace {
constexpr std::array<std::pair<std::string_view, Possible>, 8> kPossible{{
    {"mm", {1, 100'000}},
    {"deg", {1, 90}},
    {"", {0.01, 1000}},
    {"kg", {0.01, 1000}},
    {"kg/m2", {0.01, 1000}},
    {"m2/l", {0.01, 1000}},
    {"min", {0.01, 10'000}},
    {"h", {0.01, 1000}},
}};
}  // namespace

const Possible* possible_in(std::string_view unit) {
  for (const auto& [name, possible] : kPossible) {
    if (name == unit) return &possible;
  }
  return nullptr;
}

bool is_possible(double value, std::string_view unit, bool may_be_zero) {
  const Possible* possible = possible_in(unit);
  if (!possible) return false;
  const double least = may_be_zero ? 0 : possible->least;
  return least <= value && value <= possible->most;  // false for NaN
}

std::string said_possible(std::string_view unit, bool may_be_zero) {
  const Possible* possible = possible_in(unit);
  if (!possible) return "mm, deg, kg, kg/m2, m2/l, min, h or an empty unit";
  return fmt::format("{} to {}{}{}", trimmed(may_be_zero ? 0 : possible->least, 2),
                     trimmed(possible->most, 2), unit.empty() ? "" : " ", unit);
}

}  // namespace lapwright::practice
