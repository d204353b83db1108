// The tracer against numbers that two earlier trials of the model gave, one of them a raster: drift within a
// degree, climb within 3 mm (a raster of 2 mm stops a cell late). And against what geometry alone says.
#include "laid.h"

#include <lapwright/base/trig.h>

#include <gtest/gtest.h>

#include <array>

namespace lapwright {
namespace {

using check::Tracer;
using sample::Covering;
using sample::kSlate;
using sample::kTile;

constexpr double kDegree = 1;
constexpr double kMm = 3;

Covering with(Covering c, std::int64_t courses, double offset = 0.5) {
  c.courses = courses;
  c.offset = offset;
  return c;
}

TEST(Trace, drift_of_the_covering_alone_over_4_10_20_40_courses) {
  constexpr std::array<std::int64_t, 4> kCourses{4, 10, 20, 40};
  constexpr std::array kOfTile{43.0, 40.8, 39.9, 39.6};
  constexpr std::array kOfSlate{32.6, 31.6, 31.3, 31.1};
  for (std::size_t i = 0; i < kCourses.size(); ++i) {
    EXPECT_NEAR(Tracer(covering(with(kTile, kCourses[i]))).drift_stood(), kOfTile[i], kDegree) << kCourses[i];
    EXPECT_NEAR(Tracer(covering(with(kSlate, kCourses[i]))).drift_stood(), kOfSlate[i], kDegree)
        << kCourses[i];
  }
}

TEST(Trace, third_and_quarter_bonds_stand_less) {
  EXPECT_NEAR(Tracer(covering(with(kTile, 20, 1.0 / 3))).drift_stood(), 28.7, kDegree);
  EXPECT_NEAR(Tracer(covering(with(kTile, 20, 0.25))).drift_stood(), 21.9, kDegree);
  EXPECT_NEAR(Tracer(covering(with(kSlate, 20, 1.0 / 3))).drift_stood(), 21.7, kDegree);
  EXPECT_NEAR(Tracer(covering(with(kSlate, 20, 0.25))).drift_stood(), 16.3, kDegree);
}

TEST(Trace, climb_of_the_covering_is_its_headlap) {
  EXPECT_NEAR(Tracer(covering(with(kTile, 20))).climb_stood(0), 67, kMm);
  EXPECT_NEAR(Tracer(covering(with(kSlate, 20))).climb_stood(0), 93, kMm);
  // From geometry: H = L - 2G.
  EXPECT_NEAR(Tracer(covering(with(kTile, 20))).climb_stood(0), 65, 0.2);
  EXPECT_NEAR(Tracer(covering(with(kSlate, 20))).climb_stood(0), 91, 0.2);
}

Covering beside_wall(Covering c, double gap) {
  c.gap = gap;
  c.wall = true;
  return c;
}

TEST(Trace, soakers_stand_what_the_covering_stands) {
  for (const Covering& plain : {kTile, kSlate}) {
    const Covering c = beside_wall(plain, 6);
    auto roof = covering(c);
    add_soakers(roof, c, c.width / 2 + 30, 3);
    const Tracer tracer(roof);
    EXPECT_NEAR(tracer.drift_stood(), Tracer(covering(plain)).drift_stood(), kDegree);
    EXPECT_NEAR(tracer.climb_stood(0), Tracer(covering(plain)).climb_stood(0) - 3, 0.2);
  }
}

TEST(Trace, soakers_set_back_and_one_of_them_short) {
  const Covering tile = beside_wall(kTile, 6);
  auto sound = covering(tile);
  add_soakers(sound, tile, 106, 3);
  EXPECT_NEAR(Tracer(sound).climb_stood(0), 64, kMm);
  auto short_one = covering(tile);
  add_soakers(short_one, tile, 106, 3, -1, 9, 30);
  EXPECT_NEAR(Tracer(short_one).climb_stood(0), 34, kMm);
  const Covering slate = beside_wall(kSlate, 6);
  auto short_slate = covering(slate);
  add_soakers(short_slate, slate, 131, 3, -1, 9, 30);
  EXPECT_NEAR(Tracer(short_slate).climb_stood(0), 59, kMm);
}

TEST(Trace, no_soakers_leak_without_drift) {
  for (const Covering& plain : {kTile, kSlate}) {
    for (const double gap : {3.0, 6.0, 20.0}) {
      EXPECT_LT(Tracer(covering(beside_wall(plain, gap))).drift_stood(), 0) << gap;
    }
  }
}

TEST(Trace, one_soaker_left_out_leaks_at_its_course_only) {
  for (const Covering& plain : {kTile, kSlate}) {
    const Covering c = beside_wall(plain, 6);
    auto roof = covering(c);
    add_soakers(roof, c, c.width / 2 + 30, 3, 7);
    const auto leaks = Tracer(roof).leaks({});
    ASSERT_FALSE(leaks.empty());
    for (const auto& leak : leaks) {
      EXPECT_GE(leak.s, 7 * c.gauge - c.gauge);
      EXPECT_LE(leak.s, 7 * c.gauge + c.length);
      EXPECT_LT(leak.u, c.gap + 1);
    }
  }
}

// Lead laid over the units, nothing below: water creeps sideways under it, course after course.
TEST(Trace, cover_flashing_stands_less_the_longer_it_runs) {
  const auto stood = [](const Covering& plain, std::int64_t courses) {
    const Covering c = beside_wall(with(plain, courses), 6);
    auto roof = covering(c);
    check::Sheet lead;
    lead.strips.push_back(check::box(0, 150, 0, static_cast<double>(courses) * c.gauge));
    lead.order = 1'000'000;
    lead.turned_up = true;
    roof.sheets.push_back(lead);
    EXPECT_TRUE(Tracer(roof).stands({0, 0}));
    return Tracer(roof).drift_stood();
  };
  EXPECT_NEAR(stood(kTile, 10), 8.3, kDegree);  // 1 m
  EXPECT_NEAR(stood(kTile, 50), 1.7, kDegree);  // 5 m
  EXPECT_NEAR(stood(kSlate, 10), 4.1, kDegree);
  EXPECT_NEAR(stood(kTile, 50), atan_deg(144.0 / (5000 - 50)), 0.05);
}

// Supplier tables as quoted: 95 at 25 degrees, 80 at 30, 70 at 35, 60 at 40, 55 at 45 are nearly one rise.
TEST(Trace, moderate_headlaps_stand_nearly_the_same_rise) {
  constexpr std::array<std::array<double, 3>, 5> kTable{
      {{25, 95, 40}, {30, 80, 40}, {35, 70, 40}, {40, 60, 39}, {45, 55, 39}}};
  for (const auto& [pitch, headlap, rise] : kTable) {
    Covering c = kSlate;
    c.gauge = (500 - headlap) / 2;
    const double climb = Tracer(covering(c)).climb_stood(0);
    EXPECT_NEAR(climb * sin_deg(pitch), rise, 1) << pitch;
  }
}

TEST(Trace, a_nail_hole_lets_through_what_its_place_lets_it_reach) {
  const Covering c = with(kTile, 10);
  auto roof = covering(c);
  for (auto& sheet : roof.sheets) {
    const auto& strip = sheet.strips.front();
    if (sheet.order == 10 && strip.u0 > 200 && strip.u0 < 300)
      sheet.holes.push_back({strip.u0 + 82.5, strip.lo0 + 240});
  }
  // The hole lies over nothing: 240 up, the unit is seen up to 200 in the joint above.
  EXPECT_NEAR(Tracer(roof).climb_stood(0), 40, 0.2);
}

TEST(Trace, growing_weather_wets_no_less) {
  const Covering c = beside_wall(with(kTile, 8), 6);
  auto roof = covering(c);
  add_soakers(roof, c, 106, 3);
  const Tracer tracer(roof);
  const auto area = [&](check::Weather w) {
    double sum = 0;
    for (const auto& wet : tracer.wet(w)) {
      const auto& strips = roof.sheets[wet.sheet].strips;
      sum += (wet.u1 - wet.u0) * ((wet.s0 + wet.s1) / 2 - strips.front().lo0);
    }
    return sum;
  };
  double before = 0;
  for (const double drift : {0.0, 5.0, 10.0, 20.0, 30.0, 38.0}) {
    const double now = area({drift, 0});
    EXPECT_GE(now, before);
    before = now;
  }
  EXPECT_GE(area({20, 30}), area({20, 0}));
}

}  // namespace
}  // namespace lapwright
