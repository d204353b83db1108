// Physical quantities as types, so that a millimetre is never taken for a degree.
//
// Each wraps one double in a fixed unit: Length in mm, Angle in degrees, Area in mm², Mass in kg. They are
// made by named factories only, and read back by naming the unit again. Arithmetic that keeps the dimension
// is offered here; Length × Length gives Area. Values are exact in the sense of IEEE double; nothing is
// rounded until it is shown or laid on the µm grid of a flat net (geom/grid.h, the one conversion).
#pragma once

#include <compare>

namespace lapwright {

namespace detail {
// CRTP base: the operations common to every one-dimensional quantity.
template <class Q>
class Quantity {
 public:
  friend constexpr Q operator+(Q a, Q b) { return make(a.value_ + b.value_); }
  friend constexpr Q operator-(Q a, Q b) { return make(a.value_ - b.value_); }
  friend constexpr Q operator-(Q a) { return make(-a.value_); }
  friend constexpr Q operator*(Q a, double k) { return make(a.value_ * k); }
  friend constexpr Q operator*(double k, Q a) { return make(k * a.value_); }
  friend constexpr Q operator/(Q a, double k) { return make(a.value_ / k); }
  friend constexpr double operator/(Q a, Q b) { return a.value_ / b.value_; }
  friend constexpr Q& operator+=(Q& a, Q b) { return a = a + b; }
  friend constexpr Q& operator-=(Q& a, Q b) { return a = a - b; }
  friend constexpr auto operator<=>(Q a, Q b) { return a.value_ <=> b.value_; }
  friend constexpr bool operator==(Q a, Q b) { return a.value_ == b.value_; }

 private:
  friend Q;  // only Q may derive from Quantity<Q>
  constexpr Quantity() = default;
  static constexpr Q make(double v) {
    Q q;
    q.value_ = v;
    return q;
  }
  double value_ = 0;
};
}  // namespace detail

class Length : public detail::Quantity<Length> {
 public:
  constexpr Length() = default;
  static constexpr Length mm(double v) { return make(v); }
  static constexpr Length m(double v) { return make(v * 1000.0); }
  static constexpr Length inches(double v) { return make(v * 25.4); }  // 25.4 mm exactly, by definition
  static constexpr Length um(long long v) { return make(static_cast<double>(v) / 1000.0); }
  constexpr double in_mm() const { return value_; }
  constexpr double in_m() const { return value_ / 1000.0; }
  constexpr double in_inches() const { return value_ / 25.4; }
};

class Angle : public detail::Quantity<Angle> {
 public:
  constexpr Angle() = default;
  static constexpr Angle degrees(double v) { return make(v); }
  constexpr double in_degrees() const { return value_; }
};

class Area : public detail::Quantity<Area> {
 public:
  constexpr Area() = default;
  static constexpr Area mm2(double v) { return make(v); }
  constexpr double in_mm2() const { return value_; }
  constexpr double in_m2() const { return value_ / 1e6; }
};

class Mass : public detail::Quantity<Mass> {
 public:
  constexpr Mass() = default;
  static constexpr Mass kg(double v) { return make(v); }
  constexpr double in_kg() const { return value_; }
};

constexpr Area operator*(Length a, Length b) {
  return Area::mm2(a.in_mm() * b.in_mm());
}

constexpr Length min(Length a, Length b) {
  return b < a ? b : a;
}
constexpr Length max(Length a, Length b) {
  return a < b ? b : a;
}
constexpr Length abs(Length a) {
  return a < Length{} ? -a : a;
}

// A measurement with an outer bound on its error: the true value lies in [value − spread, value + spread].
template <class Q>
struct Measured {
  Q value{};
  Q spread{};

  constexpr Measured() = default;
  constexpr Measured(Q v, Q s = Q{})
      : value(v), spread(s) {}  // NOLINT(google-explicit-constructor): a bare
                                // value is a measurement without a spread
  constexpr Q least() const { return value - spread; }
  constexpr Q most() const { return value + spread; }
};

}  // namespace lapwright
