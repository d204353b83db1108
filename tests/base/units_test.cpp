// Units as types: what must compile is computed here at compile time, what must not is asked for by concept.
#include <lapwright/base/tolerance.h>
#include <lapwright/base/units.h>

#include <gtest/gtest.h>

#include <concepts>
#include <type_traits>

namespace {

using lapwright::Angle;
using lapwright::Area;
using lapwright::Length;
using lapwright::Mass;
using lapwright::Measured;

template <class A, class B>
concept Addable = requires(A a, B b) { a + b; };
template <class A, class B>
concept Subtractable = requires(A a, B b) { a - b; };
template <class A, class B>
concept Multipliable = requires(A a, B b) { a* b; };
template <class A, class B>
concept Divisible = requires(A a, B b) { a / b; };
template <class A, class B>
concept Comparable = requires(A a, B b) { a < b; };
template <class A, class B>
concept Equatable = requires(A a, B b) { a == b; };

// Each forbidden thing beside its allowed twin, so that a misspelt concept cannot pass for a refusal.
static_assert(Addable<Length, Length> && !Addable<Length, Angle> && !Addable<Length, double>);
static_assert(Subtractable<Angle, Angle> && !Subtractable<Angle, Length> && !Subtractable<Mass, Area>);
static_assert(Comparable<Length, Length> && !Comparable<Length, Angle> && !Comparable<Length, double>);
static_assert(Equatable<Area, Area> && !Equatable<Area, Length> && !Equatable<Area, double>);
static_assert(Multipliable<Length, double> && Multipliable<double, Length> && !Multipliable<Angle, Angle>);
static_assert(Multipliable<Length, Length> && !Multipliable<Area, Length> && !Multipliable<Mass, Length>);
static_assert(Divisible<Length, Length> && Divisible<Length, double> && !Divisible<Length, Mass>);
static_assert(std::same_as<decltype(Length{} * Length{}), Area> &&
              std::same_as<decltype(Length{} / Length{}), double>);

// No number becomes a quantity, and no quantity a number, without a unit being named.
static_assert(!std::is_convertible_v<double, Length> && !std::is_constructible_v<Length, double>);
static_assert(!std::is_convertible_v<Length, double> && !std::is_convertible_v<Length, Angle>);
static_assert(std::is_convertible_v<Length, Measured<Length>> &&
              !std::is_convertible_v<Angle, Measured<Length>>);

static_assert(Length::m(4.2) == Length::mm(4200));
static_assert(Length::inches(1) == Length::mm(25.4));
static_assert(Length::inches(10).in_mm() == 254 && Length::mm(254).in_inches() == 10);
static_assert(Length::um(1500) == Length::mm(1.5));
static_assert((Length::mm(200) * Length::mm(300)).in_mm2() == 60000);
static_assert((Length::m(1) * Length::m(2)).in_m2() == 2);
static_assert(Length::mm(100) / Length::mm(40) == 2.5);
static_assert(-Length::mm(3) < Length{} && abs(Length::mm(-3)) == Length::mm(3));
static_assert(min(Length::mm(1), Length::mm(2)) == Length::mm(1) &&
              max(Length::mm(1), Length::mm(2)) == Length::mm(2));

// A quantity is one double, no more: nets hold thousands of them.
static_assert(sizeof(Length) == sizeof(double) && std::is_trivially_copyable_v<Length>);

TEST(Units, arithmetic_keeps_the_dimension) {
  Length run = Length::mm(100);
  run += Length::mm(20);
  run -= Length::inches(1);
  EXPECT_DOUBLE_EQ(run.in_mm(), 94.6);
  EXPECT_EQ((2.0 * Length::mm(3) + Length::mm(1) / 2.0).in_mm(), 6.5);
}

TEST(Units, a_measurement_spreads_both_ways) {
  const Measured<Length> rafter{Length::mm(3600), Length::mm(5)};
  EXPECT_EQ(rafter.least(), Length::mm(3595));
  EXPECT_EQ(rafter.most(), Length::mm(3605));
  const Measured<Length> sure = Length::mm(10);
  EXPECT_EQ(sure.least(), sure.most());
}

}  // namespace
