// Trigonometry in degrees, from + − × ÷ √ only.
//
// libm differs by an ulp between C libraries, which would break "same input, same bytes". These functions use
// only operations that IEEE 754 fixes exactly, so native and WebAssembly builds agree to the last bit (with
// contraction off). Within 2 ulp of the true value (inverse functions 6 ulp) and exact where the answer is
// exact: sin 0, 30, 90; cos 0, 60, 90; tan 0, 45; their reflections; and back. What is not finite has no
// angle: NaN. tests/base checks all of it against MPFR.
#pragma once

#include <lapwright/base/units.h>

namespace lapwright {

inline constexpr double kPi = 3.141592653589793;

double sin_deg(double degrees);
double cos_deg(double degrees);
double tan_deg(double degrees);         // ±infinity at odd multiples of 90
double asin_deg(double x);              // [−1, 1] → [−90, 90]; outside: the nearest end
double acos_deg(double x);              // [−1, 1] → [0, 180]; outside: the nearest end
double atan_deg(double x);              // → (−90, 90)
double atan2_deg(double y, double x);   // → (−180, 180]; (0, 0) → 0
double square_root(double x);           // IEEE, exact rounding
double hypotenuse(double a, double b);  // √(a² + b²), scaled against overflow

inline double sin(Angle a) {
  return sin_deg(a.in_degrees());
}
inline double cos(Angle a) {
  return cos_deg(a.in_degrees());
}
inline double tan(Angle a) {
  return tan_deg(a.in_degrees());
}

}  // namespace lapwright
