#include <lapwright/base/trig.h>

#include <cmath>
#include <limits>

namespace lapwright {

namespace {

constexpr double kDegreesPerRadian = 57.295779513082320876798154814105;
// π/180 as an unevaluated sum of two doubles: the second holds what the first rounds away.
constexpr double kRadianHigh = 0x1.1df46a2529d39p-6;
constexpr double kRadianLow = 0x1.5c1d8becdd291p-62;

struct Sum {
  double high;
  double low;
};

// a × b as high + low exactly (Dekker's splitting; no fused multiply-add, which not every build has).
Sum exact_product(double a, double b) {
  constexpr double kSplitter = 134217729.0;  // 2^27 + 1
  const double product = a * b;
  const double a_scaled = kSplitter * a;
  const double a_high = a_scaled - (a_scaled - a);
  const double a_low = a - a_high;
  const double b_scaled = kSplitter * b;
  const double b_high = b_scaled - (b_scaled - b);
  const double b_low = b - b_high;
  const double error = ((a_high * b_high - product) + a_high * b_low + a_low * b_high) + a_low * b_low;
  return {product, error};
}

// Degrees in [−45, 45] to radians, with the rounding error kept.
Sum radians(double degrees) {
  const Sum main = exact_product(degrees, kRadianHigh);
  return {main.high, main.low + degrees * kRadianLow};
}

// Taylor series about 0 for |x| <= π/4, where the first term left out is below 2^-58 of the result. Each
// result keeps what rounding to one double would lose, because a tangent divides the two.
Sum sine_sum(double degrees) {
  if (degrees == 30.0) return {0.5, 0.0};
  if (degrees == -30.0) return {-0.5, 0.0};
  const Sum angle = radians(degrees);
  const double x = angle.high;
  const double z = x * x;
  double p = -1.0 / 1307674368000.0;  // 15!
  p = p * z + 1.0 / 6227020800.0;     // 13!
  p = p * z - 1.0 / 39916800.0;
  p = p * z + 1.0 / 362880.0;
  p = p * z - 1.0 / 5040.0;
  p = p * z + 1.0 / 120.0;
  p = p * z - 1.0 / 6.0;
  // sin(x + d) = sin x + d·cos x, and d is so small that cos x = 1 − z/2 will do.
  return {x, x * (z * p) + angle.low * (1.0 - 0.5 * z)};
}

Sum cosine_sum(double degrees) {
  const Sum angle = radians(degrees);
  const double x = angle.high;
  const Sum square = exact_product(x, x);
  const double z = square.high;
  double p = 1.0 / 20922789888000.0;  // 16!
  p = p * z - 1.0 / 87178291200.0;    // 14!
  p = p * z + 1.0 / 479001600.0;
  p = p * z - 1.0 / 3628800.0;
  p = p * z + 1.0 / 40320.0;
  p = p * z - 1.0 / 720.0;
  p = p * z + 1.0 / 24.0;
  // 1 − z/2 is exact enough only when its rounding error, and that of z itself, are added back.
  const double half = 0.5 * z;
  const double w = 1.0 - half;
  const double lost = ((1.0 - w) - half) - 0.5 * square.low;
  // cos(x + d) = cos x − d·sin x.
  return {w, lost + z * z * p - angle.low * x};
}

double sine_reduced(double degrees) {
  const Sum s = sine_sum(degrees);
  return s.high + s.low;
}

double cosine_reduced(double degrees) {
  const Sum c = cosine_sum(degrees);
  return c.high + c.low;
}

// a / b: the rounded quotient, mended by what it leaves.
double quotient(Sum a, Sum b) {
  const double q = (a.high + a.low) / (b.high + b.low);
  const Sum back = exact_product(q, b.high);
  const double left = (((a.high - back.high) - back.low) + a.low) - q * b.low;
  return q + left / b.high;
}

// An angle as a number of quarter turns and a rest in [−45, 45], both exact.
struct Quarter {
  int turns;
  double rest;
};

Quarter reduce(double degrees) {
  if (!std::isfinite(degrees)) return {0, std::numeric_limits<double>::quiet_NaN()};
  const double within = std::fmod(degrees, 360.0);  // exact by definition of fmod
  const double turns = std::nearbyint(within / 90.0);
  return {(static_cast<int>(turns) + 8) % 4, within - turns * 90.0};
}

}  // namespace

double sin_deg(double degrees) {
  const Quarter q = reduce(degrees);
  switch (q.turns) {
    case 0:
      return sine_reduced(q.rest);
    case 1:
      return cosine_reduced(q.rest);
    case 2:
      return -sine_reduced(q.rest);
    default:
      return -cosine_reduced(q.rest);
  }
}

double cos_deg(double degrees) {
  const Quarter q = reduce(degrees);
  switch (q.turns) {
    case 0:
      return cosine_reduced(q.rest);
    case 1:
      return 0.0 - sine_reduced(q.rest);
    case 2:
      return -cosine_reduced(q.rest);
    default:
      return sine_reduced(q.rest);
  }
}

double tan_deg(double degrees) {
  const Quarter q = reduce(degrees);
  if (q.turns % 2 == 0) {
    if (q.rest == 45.0) return 1.0;
    if (q.rest == -45.0) return -1.0;
    return quotient(sine_sum(q.rest), cosine_sum(q.rest));
  }
  if (q.rest == 0.0) {
    const double infinite = std::numeric_limits<double>::infinity();
    return degrees > 0 ? infinite : -infinite;
  }
  if (q.rest == 45.0) return -1.0;
  if (q.rest == -45.0) return 1.0;
  return -quotient(cosine_sum(q.rest), sine_sum(q.rest));
}

double atan_deg(double x) {
  if (x < 0) return -atan_deg(-x);
  if (x > 1.0) return 90.0 - atan_deg(1.0 / x);
  // tan 22.5°: above it, turn by 45° so that the series converges at least as fast as 0.172^n.
  constexpr double kTanOfHalf45 = 0.41421356237309503;
  if (x > kTanOfHalf45) return 45.0 + atan_deg((x - 1.0) / (x + 1.0));
  const double z = x * x;
  double p = 0;
  for (int k = 43; k >= 3; k -= 2) p = (1.0 / k - p) * z;
  return (x - x * p) * kDegreesPerRadian;
}

double atan2_deg(double y, double x) {
  if (x == 0 && y == 0) return 0;
  if (x == 0) return y > 0 ? 90.0 : -90.0;
  const double slope = atan_deg(y / x);
  if (x > 0) return slope;
  return y < 0 ? slope - 180.0 : slope + 180.0;
}

double asin_deg(double x) {
  if (x >= 1.0) return 90.0;
  if (x <= -1.0) return -90.0;
  if (x == 0.5) return 30.0;
  if (x == -0.5) return -30.0;
  return atan2_deg(x, std::sqrt((1.0 - x) * (1.0 + x)));
}

double acos_deg(double x) {
  if (x >= 1.0) return 0.0;
  if (x <= -1.0) return 180.0;
  if (x == 0.5) return 60.0;
  if (x == -0.5) return 120.0;
  return atan2_deg(std::sqrt((1.0 - x) * (1.0 + x)), x);
}

double square_root(double x) {
  return std::sqrt(x);
}

double hypotenuse(double a, double b) {
  const double p = std::fabs(a);
  const double q = std::fabs(b);
  const double big = p > q ? p : q;
  if (big == 0) return 0;
  const double small = (p > q ? q : p) / big;
  return big * std::sqrt(1.0 + small * small);
}

}  // namespace lapwright
