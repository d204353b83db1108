// Numbers as text, the same bytes on every machine and build.
#pragma once

#include <cstdint>
#include <string>

namespace lapwright {

// Fixed decimals with trailing zeros (and a trailing point) removed; never "-0". 337.5, 3 → "337.5"; 90, 3 →
// "90". Not for NaN or infinity (an assert in debug builds): they never leave a stage.
std::string trimmed(double value, int decimals);

// ceil(a / b) for lengths or counts, forgiving kCountNoise above a whole number. REQUIRES b > 0.
std::int64_t whole_up(double a_over_b);
// floor(a / b), forgiving kCountNoise below a whole number.
std::int64_t whole_down(double a_over_b);

}  // namespace lapwright
