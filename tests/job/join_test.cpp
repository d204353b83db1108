// Where two slopes meet, worked out again from their two planes in space.
#include <lapwright/job/join.h>

#include <lapwright/base/trig.h>

#include <gtest/gtest.h>

#include <cmath>

namespace {
using namespace lapwright;
using namespace lapwright::job;

Slope slope(const char* name, double pitch, double rafter, std::optional<double> faces) {
  Slope out;
  out.name = name;
  out.pitch.value = Angle::degrees(pitch);
  out.rafter.value = Length::mm(rafter);
  out.width.value = Length::mm(5000);
  if (faces) out.faces = Angle::degrees(*faces);
  return out;
}

Survey two(Slope a, Slope b, JoinKind kind) {
  Survey out;
  out.joins.push_back({kind, {a.name, b.name}});
  out.slopes = {std::move(a), std::move(b)};
  return out;
}

struct Vec {
  double x, y, z;
};

// A point of the line, s up the slope from the corner where both eaves and the line start, in space.
Vec in_space(const Slope& s, const JoinSide& side, double up) {
  const double b = s.faces ? s.faces->in_degrees() : side.hand == Hand::right ? 180 : 0;
  const double u = side.drift * up;
  const double level = up * std::cos(s.pitch.value.in_degrees() * M_PI / 180);
  const double fx = std::sin(b * M_PI / 180);
  const double fy = std::cos(b * M_PI / 180);
  return {-fy * u - fx * level, fx * u - fy * level, up * std::sin(s.pitch.value.in_degrees() * M_PI / 180)};
}

void expect_one_line(const Survey& survey) {
  const auto line = join_line(survey, survey.joins[0]);
  ASSERT_TRUE(line);
  const auto top = [&](std::size_t k) {
    return in_space(survey.slopes[line->sides[k].slope], line->sides[k], line->sides[k].run.in_mm());
  };
  const Vec a = top(0);
  const Vec b = top(1);
  EXPECT_NEAR(a.x, b.x, 1e-6);
  EXPECT_NEAR(a.y, b.y, 1e-6);
  EXPECT_NEAR(a.z, b.z, 1e-6);
  EXPECT_NEAR(line->length.in_mm(), std::sqrt(a.x * a.x + a.y * a.y + a.z * a.z), 1e-6);
  EXPECT_NEAR(std::sin(line->true_pitch.in_degrees() * M_PI / 180), a.z / line->length.in_mm(), 1e-9);
  EXPECT_NE(line->sides[0].hand, line->sides[1].hand);
}

TEST(Join, both_slopes_see_the_same_line) {
  for (const double turn : {40.0, 75.0, 90.0, 120.0}) {
    for (const double other : {20.0, 35.0, 50.0}) {
      expect_one_line(
          two(slope("a", 35, 3000, 180.0), slope("b", other, 3500, 180 + turn), JoinKind::valley));
      expect_one_line(two(slope("a", 35, 3000, 180.0), slope("b", other, 3500, 180 - turn), JoinKind::hip));
    }
  }
}

// From geometry: equal pitches square to each other meet at 45° on plan; the line climbs at atan(tan p / √2).
TEST(Join, equal_pitches_meet_at_half_a_right_angle) {
  const Survey survey = two(slope("a", 40, 3000, 180.0), slope("b", 40, 3000, 270.0), JoinKind::valley);
  const auto line = join_line(survey, survey.joins[0]);
  ASSERT_TRUE(line);
  EXPECT_EQ(line->sides[0].hand, Hand::right);
  EXPECT_GT(line->sides[0].drift, 0);
  EXPECT_NEAR(line->sides[0].to_eaves.in_degrees(), 45, 1e-9);
  EXPECT_NEAR(line->true_pitch.in_degrees(),
              std::atan(std::tan(40 * M_PI / 180) / std::sqrt(2.0)) * 180 / M_PI, 1e-9);
}

TEST(Join, a_hip_at_the_right_end_drifts_to_the_left) {
  const Survey survey =
      two(slope("a", 40, 3000, std::nullopt), slope("b", 40, 3000, std::nullopt), JoinKind::hip);
  const auto line = join_line(survey, survey.joins[0]);
  ASSERT_TRUE(line);
  EXPECT_TRUE(line->assumed);
  EXPECT_EQ(line->sides[0].hand, Hand::right);
  EXPECT_LT(line->sides[0].drift, 0);
  EXPECT_EQ(joins_of(survey, 1).size(), 1U);
}

TEST(Join, slopes_that_make_no_line_make_none) {
  const Survey alike = two(slope("a", 40, 3000, 180.0), slope("b", 40, 3000, 180.4), JoinKind::valley);
  EXPECT_FALSE(join_line(alike, alike.joins[0]));
  const Survey opposite = two(slope("a", 40, 3000, 180.0), slope("b", 40, 3000, 0.0), JoinKind::hip);
  EXPECT_FALSE(join_line(opposite, opposite.joins[0]));
  const Survey ridge = two(slope("a", 40, 3000, 180.0), slope("b", 30, 3000, 0.0), JoinKind::ridge);
  const auto line = join_line(ridge, ridge.joins[0]);
  ASSERT_TRUE(line);
  EXPECT_EQ(line->sides[0].drift, 0);
  EXPECT_NEAR(line->fold.in_degrees(), 70, 1e-9);
}

}  // namespace
