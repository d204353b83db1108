#include <lapwright/practice/catalogue.h>

#include <lapwright/base/numbers.h>
#include <lapwright/base/units.h>
#include <lapwright/job/length_text.h>

#include <cassert>
#include <cmath>

namespace lapwright::practice {

namespace {

// What rounding up or down forgives, in the last decimal shown: 190 that came out as 190.0000001 is 190.
constexpr double kShownNoise = 1e-6;

std::string rounded(double value, int decimals, ShownHow how) {
  double scale = 1;
  for (int i = 0; i < decimals; ++i) scale *= 10;
  if (how == ShownHow::up) value = std::ceil(value * scale - kShownNoise) / scale;
  if (how == ShownHow::down) value = std::floor(value * scale + kShownNoise) / scale;
  return trimmed(value, decimals);
}

job::Rounding rounding(ShownHow how) {
  if (how == ShownHow::up) return job::Rounding::up;
  if (how == ShownHow::down) return job::Rounding::down;
  return job::Rounding::nearest;
}

}  // namespace

std::string shown(double value, std::string_view unit, job::ShownIn shown_in, ShownHow how) {
  assert(std::isfinite(value));
  if (unit == "mm") {
    if (how == ShownHow::fine) return trimmed(value, 2) + " mm";
    const Length length = Length::mm(value);
    if (shown_in == job::ShownIn::inches) return job::shown_inches(length, rounding(how));
    return job::shown_mm(length, rounding(how)) + " mm";
  }
  if (unit == "deg") return rounded(value, 1, how) + "°";
  if (unit == "kg") return rounded(value, std::abs(value) < 1 ? 2 : 1, how) + " kg";
  if (unit == "kg/m2") return rounded(value, 2, how) + " kg/m²";
  if (unit == "mm2") return rounded(Area::mm2(value).in_m2(), 3, how) + " m²";
  if (unit == "m2") return rounded(value, 1, how) + " m²";
  if (unit == "m" || unit == "h") return rounded(value, 1, how) + " " + std::string(unit);
  if (unit == "l") return rounded(value, 2, how) + " l";
  if (unit == "days" && value == 1) return "1 day";
  if (unit == "weeks" && value == 1) return "1 week";
  if (unit == "m2/l") return rounded(value, 1, how) + " m²/l";
  std::string text = rounded(value, 3, how);
  if (!unit.empty()) text += " " + std::string(unit);
  return text;
}

}  // namespace lapwright::practice
