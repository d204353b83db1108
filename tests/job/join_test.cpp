// Where two slopes meet, against published examples and against two planes worked out the long way.
#include <gtest/gtest.h>
#include <lapwright/base/generator.h>
#include <lapwright/job/join.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace lapwright::job {
namespace {

Slope slope_of(const std::string& name, double pitch, std::optional<double> faces, double rafter = 4000,
               double width = 6000) {
  Slope s;
  s.name = name;
  s.pitch = Angle::degrees(pitch);
  s.rafter = Length::mm(rafter);
  s.width = Length::mm(width);
  if (faces) s.faces = Angle::degrees(*faces);
  return s;
}

Survey two(JoinKind kind, const Slope& a, const Slope& b) {
  Survey survey;
  survey.slopes = {a, b};
  Join join;
  join.kind = kind;
  join.slopes = {a.name, b.name};
  survey.joins.push_back(join);
  return survey;
}

double true_pitch(double first, double second, double turned) {
  const Survey survey =
      two(JoinKind::hip, slope_of("first", first, 100), slope_of("second", second, 100 - turned));
  const auto line = join_line(survey, survey.joins.front());
  return line ? line->true_pitch.in_degrees() : -1;
}

// Source: published roof-framing examples, as quoted in the trade notes.
TEST(Join, TruePitchAsPublished) {
  EXPECT_NEAR(true_pitch(45, 33.69007, 90), 29.0171, 1e-4);
  EXPECT_NEAR(true_pitch(39.80557, 47.29061, 90), 33.44556, 1e-4);
  // The line stands at 67.5 to both eaves where equal slopes turn by 45.
  EXPECT_NEAR(true_pitch(33.69007, 33.69007, 45), 31.6297, 1e-4);
  EXPECT_NEAR(true_pitch(30, 30, 90), 22.2, 0.05);
  EXPECT_NEAR(true_pitch(35, 35, 90), 26.3, 0.05);
  EXPECT_NEAR(true_pitch(40, 40, 90), 30.7, 0.05);
  EXPECT_NEAR(true_pitch(45, 45, 90), 35.3, 0.05);
}

TEST(Join, PlanAngleAsPublished) {
  const Survey survey = two(JoinKind::hip, slope_of("a", 33.69007, 0), slope_of("b", 33.69007, 45));
  const auto line = join_line(survey, survey.joins.front());
  ASSERT_TRUE(line);
  EXPECT_NEAR(line->sides[0].to_eaves.in_degrees(), 67.5, 1e-9);
  EXPECT_NEAR(line->sides[1].to_eaves.in_degrees(), 67.5, 1e-9);
}

// Facing a slope that looks south, east is to the right. A wing that runs south from its right end looks
// west and begins at its own left end; a hip end that looks west closes it at the left.
TEST(Join, HandsOnPlan) {
  struct Case {
    JoinKind kind;
    double first;
    double second;
    Hand hand;
  };
  for (const Case& c :
       {Case{JoinKind::valley, 180, 270, Hand::right}, Case{JoinKind::valley, 180, 90, Hand::left},
        Case{JoinKind::hip, 180, 270, Hand::left}, Case{JoinKind::hip, 180, 90, Hand::right},
        Case{JoinKind::valley, 270, 0, Hand::right}, Case{JoinKind::hip, 10, 280, Hand::right}}) {
    const Survey survey = two(c.kind, slope_of("a", 40, c.first), slope_of("b", 40, c.second));
    const auto line = join_line(survey, survey.joins.front());
    ASSERT_TRUE(line);
    EXPECT_EQ(line->sides[0].hand, c.hand) << c.first << ' ' << c.second;
    EXPECT_NE(line->sides[1].hand, c.hand);
    const bool widens = c.kind == JoinKind::valley;
    EXPECT_EQ(line->sides[0].drift > 0, widens == (c.hand == Hand::right));
    EXPECT_NEAR(std::abs(line->sides[0].drift), std::cos(40 * std::acos(-1.0) / 180), 1e-12);
  }
}

TEST(Join, WithoutBearingsTheyMeetSquare) {
  for (const JoinKind kind : {JoinKind::valley, JoinKind::hip}) {
    const Survey survey = two(kind, slope_of("a", 35, 12), slope_of("b", 35, std::nullopt));
    const auto line = join_line(survey, survey.joins.front());
    ASSERT_TRUE(line);
    EXPECT_TRUE(line->assumed);
    EXPECT_EQ(line->sides[0].hand, Hand::right);
    EXPECT_EQ(line->sides[1].hand, Hand::left);
    EXPECT_NEAR(line->sides[0].to_eaves.in_degrees(), 45, 1e-9);
  }
}

TEST(Join, NoLineWhereTheyRunAlike) {
  const auto none = [](JoinKind kind, double a, double b) {
    const Survey survey = two(kind, slope_of("a", 35, a), slope_of("b", 35, b));
    return !join_line(survey, survey.joins.front());
  };
  EXPECT_TRUE(none(JoinKind::valley, 0, 0.5));
  EXPECT_TRUE(none(JoinKind::valley, 359.8, 0.5));
  EXPECT_FALSE(none(JoinKind::valley, 359, 1.5));
  EXPECT_TRUE(none(JoinKind::hip, 0, 180));
  EXPECT_TRUE(none(JoinKind::hip, 90, 269.5));
  EXPECT_FALSE(none(JoinKind::hip, 90, 268));
  EXPECT_TRUE(none(JoinKind::ridge, 90, 200));
  EXPECT_FALSE(none(JoinKind::ridge, 90, 270));
}

TEST(Join, Ridge) {
  const Survey survey = two(JoinKind::ridge, slope_of("a", 35, 90, 4000, 7000), slope_of("b", 50, 270, 3000));
  const auto line = join_line(survey, survey.joins.front());
  ASSERT_TRUE(line);
  EXPECT_FALSE(line->assumed);
  EXPECT_EQ(line->sides[0].drift, 0);
  EXPECT_EQ(line->sides[0].run, Length::mm(4000));
  EXPECT_EQ(line->sides[1].run, Length::mm(3000));
  EXPECT_EQ(line->true_pitch, Angle{});
  EXPECT_NEAR(line->fold.in_degrees(), 85, 1e-9);
  EXPECT_EQ(line->length, Length::mm(6000));
}

// Plain plan geometry with the C library's functions: heights over the plan, the point where both slopes are
// 1 high, and the angle between the two slopes across the line.
struct Point {
  double x, y, z;
};
double times(const Point& a, const Point& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
Point less(const Point& a, const Point& b, double k) {
  return {a.x - b.x * k, a.y - b.y * k, a.z - b.z * k};
}
Point unit(const Point& a) {
  return less({0, 0, 0}, a, -1 / std::sqrt(times(a, a)));
}

struct Over {
  double gx, gy;  // the height gained going 1 east, 1 north
  double height(double x, double y) const { return gx * x + gy * y; }
};

TEST(Join, FromTwoPlanesTheLongWay) {
  Generator random(20240611);
  const auto within = [&](double low, double high) { return low + (high - low) * random.unit(); };
  const double rad = std::acos(-1.0) / 180;
  for (int i = 0; i < 10'000; ++i) {
    const double p1 = within(5, 80);
    const double p2 = within(5, 80);
    const double b1 = within(0, 360);
    const double sign = within(0, 1) < 0.5 ? -1 : 1;
    const double by = sign * within(2, 178);
    const double b2 = std::fmod(b1 + by + 720, 360);
    const double r1 = within(500, 9000);
    const double r2 = within(500, 9000);
    const bool valley = within(0, 1) < 0.5;
    const Survey survey = two(valley ? JoinKind::valley : JoinKind::hip, slope_of("a", p1, b1, r1, 5000),
                              slope_of("b", p2, b2, r2, 7000));
    const auto line = join_line(survey, survey.joins.front());
    ASSERT_TRUE(line);
    const Over a{-std::sin(b1 * rad) * std::tan(p1 * rad), -std::cos(b1 * rad) * std::tan(p1 * rad)};
    const Over b{-std::sin(b2 * rad) * std::tan(p2 * rad), -std::cos(b2 * rad) * std::tan(p2 * rad)};
    // The plan point where both are 1 high.
    const double det = a.gx * b.gy - a.gy * b.gx;
    const double x = (b.gy - a.gy) / det;
    const double y = (a.gx - b.gx) / det;
    const double flat = std::hypot(x, y);
    ASSERT_NEAR(line->true_pitch.in_degrees(), std::atan(1 / flat) / rad, 1e-7);
    const double top = std::min(r1 * std::sin(p1 * rad), r2 * std::sin(p2 * rad));
    ASSERT_NEAR(line->length.in_mm() / (top * std::hypot(flat, 1)), 1, 1e-9);
    const Point along = unit({x, y, 1});
    Point into[2];
    for (std::size_t k = 0; k < 2; ++k) {
      const JoinSide& side = line->sides[k];
      const double bearing = k == 0 ? b1 : b2;
      const double pitch = k == 0 ? p1 : p2;
      const Over& mine = k == 0 ? a : b;
      const Over& other = k == 0 ? b : a;
      // To the right of someone who looks against the bearing: a quarter turn clockwise from there.
      const double right_x = std::sin((bearing + 180 + 90) * rad);
      const double right_y = std::cos((bearing + 180 + 90) * rad);
      const double u = x * right_x + y * right_y;
      const double s = 1 / std::sin(pitch * rad);
      ASSERT_NEAR(side.drift, u / s, 1e-7 * std::max(1.0, std::abs(u / s)));
      ASSERT_NEAR(side.run.in_mm() / (top * s), 1, 1e-12);
      ASSERT_NEAR(std::sin(side.to_eaves.in_degrees() * rad), 1 / std::tan(pitch * rad) / flat, 1e-7);
      // A little along the eaves into this slope it is this slope that one sees: the higher of the two in a
      // valley, the lower at a hip.
      const double in = side.hand == Hand::right ? -1 : 1;
      const double there = other.height(in * right_x, in * right_y) - mine.height(in * right_x, in * right_y);
      ASSERT_EQ(there < 0, valley) << b1 << ' ' << b2;
      const Point eaves{in * right_x, in * right_y, 0};
      into[k] = unit(less(eaves, along, times(eaves, along)));
      const double width = k == 0 ? 5000 : 7000;
      ASSERT_NEAR(u_at(side, survey.slopes[k], side.run).in_mm(), (in < 0 ? width : 0) + side.drift * top * s,
                  1e-6);
    }
    const double dihedral = std::acos(std::clamp(times(into[0], into[1]), -1.0, 1.0)) / rad;
    ASSERT_NEAR(line->fold.in_degrees(), 180 - dihedral, 1e-5);
  }
}

TEST(Join, OfASlopeAndUnderAStack) {
  Survey survey = two(JoinKind::valley, slope_of("a", 45, 180), slope_of("b", 45, 270));
  EXPECT_EQ(joins_of(survey, 0).size(), 1U);
  ASSERT_EQ(joins_of(survey, 1).size(), 1U);
  EXPECT_EQ(joins_of(survey, 1)[0].side, 1U);
  // The line crosses slope a at u = 6000 + s cos 45, up to s = 4000.
  Junction stack;
  stack.kind = JunctionKind::stack;
  stack.front = Length::mm(1000);
  stack.width = Length::mm(600);
  stack.depth = Length::mm(400);
  const auto on = [&](double at, double front) {
    stack.at = Length::mm(at);
    stack.front = Length::mm(front);
    return stands_on_join(survey, 0, stack).has_value();
  };
  EXPECT_TRUE(on(7000, 1000));
  EXPECT_TRUE(on(6408, 1000));  // its right face at 6708, the line there from 6707.1
  EXPECT_FALSE(on(6405, 1000));
  EXPECT_TRUE(on(7400, 1000));  // its left face at 7100, the line reaches 7107.1 at its back
  EXPECT_FALSE(on(7410, 1000));
  EXPECT_FALSE(on(8900, 4001));  // above the line's end
}

}  // namespace
}  // namespace lapwright::job
