#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>

#include <fmt/format.h>

#include <cassert>
#include <cmath>

namespace lapwright {

std::string trimmed(double value, int decimals) {
  assert(std::isfinite(value));
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != std::string::npos) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  if (text == "-0") text = "0";
  return text;
}

std::int64_t whole_up(double a_over_b) {
  return static_cast<std::int64_t>(std::ceil(a_over_b - tolerance::kCountNoise));
}

std::int64_t whole_down(double a_over_b) {
  return static_cast<std::int64_t>(std::floor(a_over_b + tolerance::kCountNoise));
}

}  // namespace lapwright
