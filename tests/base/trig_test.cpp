// The trigonometry against MPFR, which computes the same functions of degrees (mpfr_sinu(…, 360) and its kin)
// to as many bits as asked.
#include <lapwright/base/generator.h>
#include <lapwright/base/trig.h>

#include <gtest/gtest.h>
#include <mpfr.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace {

using lapwright::acos_deg;
using lapwright::asin_deg;
using lapwright::atan2_deg;
using lapwright::atan_deg;
using lapwright::cos_deg;
using lapwright::Generator;
using lapwright::hypotenuse;
using lapwright::sin_deg;
using lapwright::tan_deg;

constexpr double kForwardUlp = 2;
constexpr double kInverseUlp = 6;
constexpr mpfr_prec_t kBits = 240;

class Exact {
 public:
  explicit Exact(double value = 0) {
    mpfr_init2(value_, kBits);
    mpfr_set_d(value_, value, MPFR_RNDN);
  }
  ~Exact() { mpfr_clear(value_); }
  Exact(const Exact&) = delete;
  Exact& operator=(const Exact&) = delete;
  mpfr_ptr get() { return value_; }

  // How far `got` lies from this value, in units of the last place of a double at this value.
  double ulps_to(double got) {
    if (mpfr_zero_p(value_) != 0) return got == 0 ? 0 : std::numeric_limits<double>::infinity();
    const double nearest = std::fabs(mpfr_get_d(value_, MPFR_RNDZ));
    const double ulp = std::nextafter(nearest, std::numeric_limits<double>::infinity()) - nearest;
    Exact difference(got);
    mpfr_sub(difference.get(), difference.get(), value_, MPFR_RNDN);
    return std::fabs(mpfr_get_d(difference.get(), MPFR_RNDN)) / ulp;
  }

 private:
  mpfr_t value_;
};

// mpfr_*u functions read a turn as `u` units: 360 gives degrees.
using InTurns = int (*)(mpfr_ptr, mpfr_srcptr, unsigned long, mpfr_rnd_t);

struct Worst {
  double ulps = 0;
  double at = 0;
};

Worst worst_of(double (*ours)(double), InTurns exact, const std::vector<double>& arguments) {
  Worst worst;
  for (const double a : arguments) {
    Exact value(a);
    exact(value.get(), value.get(), 360, MPFR_RNDN);
    if (mpfr_inf_p(value.get()) != 0) continue;  // tan at odd multiples of 90 has a test of its own
    const double ulps = value.ulps_to(ours(a));
    if (!(ulps <= worst.ulps)) worst = {ulps, a};
  }
  return worst;
}

// Every eighth of a degree over four turns, both neighbours of each multiple of 15, small and large powers of
// two, and drawn ones.
std::vector<double> angles() {
  std::vector<double> out;
  for (int i = -5760; i <= 5760; ++i) out.push_back(i / 8.0);
  for (int i = -48; i <= 48; ++i) {
    out.push_back(std::nextafter(15.0 * i, 1e9));
    out.push_back(std::nextafter(15.0 * i, -1e9));
  }
  Generator generator(1);
  for (int power = -60; power <= 30; ++power) out.push_back(std::ldexp(1 + generator.unit(), power));
  for (int i = 0; i < 100000; ++i) out.push_back(-90 + 180 * generator.unit());
  for (int i = 0; i < 50000; ++i) out.push_back(-100000 + 200000 * generator.unit());
  return out;
}

// [−1, 1], dense near the ends and near 0.
std::vector<double> ratios() {
  std::vector<double> out;
  for (int i = -1000; i <= 1000; ++i) out.push_back(i / 1000.0);
  Generator generator(2);
  for (int i = 0; i < 100000; ++i) out.push_back(-1 + 2 * generator.unit());
  for (int power = -52; power <= -1; ++power) {
    const double small = std::ldexp(1 + generator.unit(), power);
    for (const double sign : {-1.0, 1.0}) {
      if (small < 1) out.insert(out.end(), {sign * small, sign * (1 - small)});
    }
  }
  return out;
}

std::vector<double> slopes() {
  std::vector<double> out;
  for (int i = -2000; i <= 2000; ++i) out.push_back(i / 100.0);
  Generator generator(3);
  for (int i = 0; i < 100000; ++i) out.push_back(-5 + 10 * generator.unit());
  for (int power = -300; power <= 300; ++power) {
    out.push_back(std::ldexp(1 + generator.unit(), power));
    out.push_back(-std::ldexp(1 + generator.unit(), power));
  }
  // Where the reduction changes branch: tan 22.5° and 1.
  for (const double edge : {0.41421356237309503, 1.0}) {
    double below = edge;
    double above = edge;
    for (int i = 0; i < 100; ++i) {
      out.insert(out.end(), {below, above});
      below = std::nextafter(below, 0);
      above = std::nextafter(above, 2);
    }
  }
  return out;
}

TEST(Trig, sine_cosine_tangent_within_two_ulp) {
  const auto all = angles();
  for (const auto& [name, ours, exact] : {std::tuple{"sin", &sin_deg, &mpfr_sinu},
                                          {"cos", &cos_deg, &mpfr_cosu},
                                          {"tan", &tan_deg, &mpfr_tanu}}) {
    const Worst worst = worst_of(ours, exact, all);
    RecordProperty(name, std::to_string(worst.ulps));
    EXPECT_LE(worst.ulps, kForwardUlp) << name << " at " << worst.at;
  }
}

TEST(Trig, inverse_functions_within_six_ulp) {
  const auto in_range = ratios();
  const auto any = slopes();
  for (const auto& [name, ours, exact, arguments] : {std::tuple{"asin", &asin_deg, &mpfr_asinu, &in_range},
                                                     {"acos", &acos_deg, &mpfr_acosu, &in_range},
                                                     {"atan", &atan_deg, &mpfr_atanu, &any}}) {
    const Worst worst = worst_of(ours, exact, *arguments);
    RecordProperty(name, std::to_string(worst.ulps));
    EXPECT_LE(worst.ulps, kInverseUlp) << name << " at " << worst.at;
  }
}

TEST(Trig, atan2_within_six_ulp_in_every_quarter) {
  Generator generator(4);
  Worst worst;
  for (int i = 0; i < 100000; ++i) {
    const double y = std::ldexp(-1 + 2 * generator.unit(), static_cast<int>(generator.between(-20, 20)));
    const double x = std::ldexp(-1 + 2 * generator.unit(), static_cast<int>(generator.between(-20, 20)));
    Exact value(y);
    Exact other(x);
    mpfr_atan2u(value.get(), value.get(), other.get(), 360, MPFR_RNDN);
    const double ulps = value.ulps_to(atan2_deg(y, x));
    if (!(ulps <= worst.ulps)) worst = {ulps, y / x};
  }
  EXPECT_LE(worst.ulps, kInverseUlp) << "at slope " << worst.at;
}

TEST(Trig, hypotenuse_within_two_ulp_and_safe_from_overflow) {
  Generator generator(5);
  Worst worst;
  for (int i = 0; i < 100000; ++i) {
    const double a = std::ldexp(-1 + 2 * generator.unit(), static_cast<int>(generator.between(-30, 30)));
    const double b = std::ldexp(-1 + 2 * generator.unit(), static_cast<int>(generator.between(-30, 30)));
    Exact value(a);
    Exact other(b);
    mpfr_hypot(value.get(), value.get(), other.get(), MPFR_RNDN);
    const double ulps = value.ulps_to(hypotenuse(a, b));
    if (!(ulps <= worst.ulps)) worst = {ulps, a / b};
  }
  EXPECT_LE(worst.ulps, 2) << "at ratio " << worst.at;
  EXPECT_EQ(hypotenuse(3e300, 4e300), 5e300);
  EXPECT_EQ(hypotenuse(0, 0), 0);
}

TEST(Trig, exact_where_the_answer_is_exact) {
  const double infinity = std::numeric_limits<double>::infinity();
  // Multiples of 30 and 45 over three turns each way: a reflection must not lose what the first quarter has.
  for (int turn = -3; turn <= 3; ++turn) {
    const double full = 360.0 * turn;
    const auto is = [&](double (*f)(double), double angle, double expected) {
      EXPECT_EQ(f(full + angle), expected) << full + angle;
      EXPECT_FALSE(expected == 0 && std::signbit(f(full + angle)) && full + angle > 0) << full + angle;
    };
    for (const auto& [angle, value] : {std::pair{0.0, 0.0},
                                       {30.0, 0.5},
                                       {90.0, 1.0},
                                       {150.0, 0.5},
                                       {210.0, -0.5},
                                       {270.0, -1.0},
                                       {330.0, -0.5}}) {
      is(sin_deg, angle, value);
    }
    for (const auto& [angle, value] : {std::pair{0.0, 1.0},
                                       {60.0, 0.5},
                                       {90.0, 0.0},
                                       {120.0, -0.5},
                                       {180.0, -1.0},
                                       {240.0, -0.5},
                                       {270.0, 0.0},
                                       {300.0, 0.5}}) {
      is(cos_deg, angle, value);
    }
    for (const auto& [angle, value] :
         {std::pair{0.0, 0.0}, {45.0, 1.0}, {135.0, -1.0}, {225.0, 1.0}, {315.0, -1.0}}) {
      EXPECT_EQ(tan_deg(full + angle), value) << full + angle;
    }
    EXPECT_EQ(sin_deg(full + 180), 0);
    EXPECT_EQ(std::fabs(tan_deg(full + 90)), infinity);
    EXPECT_EQ(std::fabs(tan_deg(full + 270)), infinity);
  }
  EXPECT_EQ(asin_deg(0.5), 30);
  EXPECT_EQ(asin_deg(-0.5), -30);
  EXPECT_EQ(acos_deg(0.5), 60);
  EXPECT_EQ(acos_deg(-0.5), 120);
  EXPECT_EQ(atan_deg(1), 45);
  EXPECT_EQ(atan_deg(-1), -45);
  EXPECT_EQ(atan_deg(0), 0);
  EXPECT_EQ(atan2_deg(1, -1), 135);
  EXPECT_EQ(atan2_deg(-1, -1), -135);
  EXPECT_EQ(atan2_deg(0, -1), 180);
  EXPECT_EQ(atan2_deg(0, 0), 0);
}

TEST(Trig, outside_the_range_of_an_inverse_is_its_nearest_end) {
  EXPECT_EQ(asin_deg(1.0 + 1e-9), 90);
  EXPECT_EQ(asin_deg(-7), -90);
  EXPECT_EQ(acos_deg(1.0 + 1e-9), 0);
  EXPECT_EQ(acos_deg(-7), 180);
}

TEST(Trig, what_is_not_finite_has_no_angle) {
  for (const double bad : {std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity(),
                           std::numeric_limits<double>::quiet_NaN()}) {
    EXPECT_TRUE(std::isnan(sin_deg(bad)));
    EXPECT_TRUE(std::isnan(cos_deg(bad)));
    EXPECT_TRUE(std::isnan(tan_deg(bad)));
  }
}

// sin² + cos² = 1 and tan = sin / cos, as far as rounding allows: sources of error that a table of points
// might miss.
TEST(Trig, identities_hold) {
  Generator generator(6);
  for (int i = 0; i < 20000; ++i) {
    const double a = -400 + 800 * generator.unit();
    EXPECT_NEAR(sin_deg(a) * sin_deg(a) + cos_deg(a) * cos_deg(a), 1, 1e-15) << a;
    EXPECT_EQ(sin_deg(-a), -sin_deg(a)) << a;
    EXPECT_EQ(cos_deg(-a), cos_deg(a)) << a;
  }
}

}  // namespace
