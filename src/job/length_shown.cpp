// Lengths for people.
#include <lapwright/base/numbers.h>
#include <lapwright/job/length_text.h>

#include <fmt/core.h>

#include <cmath>
#include <numeric>

namespace lapwright::job {

namespace {

// A count from a size, rounded as asked; noise below kCountNoise never turns it into the next one.
std::int64_t rounded(double count, Rounding rounding) {
  if (rounding == Rounding::up) return whole_up(count);
  if (rounding == Rounding::down) return whole_down(count);
  return count < 0 ? -whole_down(0.5 - count) : whole_down(count + 0.5);
}

}  // namespace

std::string shown_mm(Length length, Rounding rounding) {
  return fmt::format("{}", rounded(length.in_mm(), rounding));
}

std::string shown_inches(Length length, Rounding rounding) {
  constexpr std::int64_t kSixteenths = 16;
  std::int64_t sixteenths = rounded(length.in_mm() * 16.0 / 25.4, rounding);
  std::string out;
  if (sixteenths < 0) {
    out = "-";
    sixteenths = -sixteenths;
  }
  const std::int64_t feet = sixteenths / (12 * kSixteenths);
  const std::int64_t inches = sixteenths / kSixteenths % 12;
  const std::int64_t part = sixteenths % kSixteenths;
  if (feet != 0) out += fmt::format("{} ft", feet);
  if (inches == 0 && part == 0) return feet != 0 ? out : "0 in";
  if (feet != 0) out += ' ';
  if (inches != 0 || feet != 0) out += fmt::format("{}", inches);
  if (part != 0) {
    if (inches != 0 || feet != 0) out += ' ';
    const std::int64_t common = std::gcd(part, kSixteenths);
    out += fmt::format("{}/{}", part / common, kSixteenths / common);
  }
  return out + " in";
}

}  // namespace lapwright::job
