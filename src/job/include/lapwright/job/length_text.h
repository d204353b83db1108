// Lengths as people write them.
//
// Accepted, with any spacing and in any case: "75 mm", "7.5cm", "4.2 m", "10 1/2 in", "10½\"", "3.5\"", "3
// in", "18 ft", "18' 6 1/2\"", "1/2 in", and a bare number in the unit that the file names; primes and curly
// quotes serve for ' and ". A decimal comma is read as a point ("4,2 m"); a number with both is refused, and
// so is a comma before three digits, which may mean thousands. Refused as well: a sign, a dash, two units
// other than feet and inches, a fraction of one or more, more than 1000 km. The result is exact to the
// nearest double.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/base/units.h>

#include <cstdint>
#include <string>
#include <string_view>

namespace lapwright::job {

enum class LengthUnit : std::uint8_t { mm, inches };

// Text to a length. A text without a unit is taken in `bare`. On failure the fault holds what was read, what
// is accepted and how to mend it; path and spot are left for the caller to fill.
Result<Length> read_length(std::string_view text, LengthUnit bare);

// For people: "1 234 mm" is never used; "1234", or in inches "4 ft 0 1/2 in", nearest 1/16. Up and down
// forgive floating-point noise (kCountNoise). REQUIRES |length| <= 1000 km.
enum class Rounding : std::uint8_t { nearest, up, down };
std::string shown_mm(Length length, Rounding rounding = Rounding::nearest);  // whole mm, no unit
std::string shown_inches(Length length,
                         Rounding rounding = Rounding::nearest);  // feet, inches and sixteenths

}  // namespace lapwright::job
