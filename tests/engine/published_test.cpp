// What others have printed, against what the planner makes of the same roof.
#include "planned.h"
#include "planner.h"
#include "planning.h"

#include <lapwright/base/trig.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace lapwright {
namespace {

using sample::figure_value;
using sample::finding;
using sample::pieces_of;

constexpr double kInch = 25.4;

struct Roof {
  double pitch = 40;
  double rafter = 4000;
  std::string covering = R"("kind": "plain-tile", "length": 265, "width": 165, "thickness": 12)";
  std::string wall = R"("kind": "brick", "course": 75, "first_joint": 30)";
  std::string practice;
  std::string unit = "mm";
  double width = 4000;
};

engine::Planned planned(const Roof& roof) {
  std::ostringstream job;
  job.precision(12);
  job << R"({"format": "lapwright-job/1", "unit": ")" << roof.unit
      << R"(", "site": {"exposure": "moderate"}, "practice": {)" << roof.practice
      << R"(}, "slopes": [{"pitch": )" << roof.pitch << R"(, "rafter": )" << roof.rafter << R"(, "width": )"
      << roof.width << R"(, "covering": {)" << roof.covering
      << R"(}, "junctions": [{"kind": "side", "hand": "left", "wall": {)" << roof.wall << "}}]}]}";
  auto out = sample::plan_job(job.str());
  EXPECT_TRUE(out) << to_line(out.error().front()) << job.str();
  return out ? std::move(*out) : engine::Planned{};
}

std::string slate(double length, double width, double headlap, const char* nailing = "centre") {
  std::ostringstream text;
  text << R"("kind": "slate", "length": )" << length << R"(, "width": )" << width << R"(, "thickness": )"
       << (length < 50 ? 0.25 : 6) << R"(, "headlap": )" << headlap << R"(, "nailing": ")" << nailing << '"';
  return text.str();
}

// A slate supplier's printed table of slates per m², centre-nailed.
TEST(Published, slates_per_square_metre) {
  struct Row {
    double length, width, headlap, printed;
  };
  const std::vector<Row> rows{
      {600, 300, 50, 11.9},  {600, 300, 65, 12.3},  {600, 300, 75, 12.5},  {600, 300, 80, 12.6},
      {600, 300, 85, 12.7},  {600, 300, 90, 12.9},  {500, 300, 75, 15.4},  {500, 300, 90, 16.0},
      {500, 300, 100, 16.4}, {500, 300, 115, 17.0}, {500, 300, 130, 17.7}, {500, 250, 50, 17.4},
      {500, 250, 65, 18.0},  {500, 250, 75, 18.5},  {500, 250, 80, 18.7},  {500, 250, 90, 19.1},
      {500, 250, 100, 19.6}, {500, 250, 110, 20.1}, {500, 250, 120, 20.6}, {500, 250, 150, 22.4},
      {400, 250, 75, 24.1},  {400, 250, 80, 24.5},  {400, 250, 90, 25.3},  {400, 250, 100, 26.1},
      {400, 250, 110, 27.0}, {400, 250, 120, 28.0}, {400, 200, 75, 30.1},  {400, 200, 90, 31.5},
      {400, 200, 100, 32.5}, {350, 200, 75, 35.5},  {350, 200, 100, 39.0}, {300, 200, 75, 43.4},
      {300, 200, 100, 48.8}};
  for (const Row& row : rows) {
    Roof roof;
    roof.covering = slate(row.length, row.width, row.headlap);
    roof.rafter = 10 * (row.length - row.headlap) / 2;
    const job::Plan plan = planned(roof).plan;
    ASSERT_FALSE(plan.rows.empty());
    const double joint = plan.rows.back().gap.in_mm();
    const double per_m2 = 1e6 / ((row.width + joint) * plan.set_out[0].gauge.in_mm());
    EXPECT_NEAR(per_m2, row.printed, 0.1) << row.length << " × " << row.width << " at " << row.headlap;
  }
}

// A building-construction handbook of about 1900 to 1910: inches, 3 in lap, numbers per 100 ft² without
// joints.
TEST(Published, old_gauge_table) {
  struct Row {
    double length, width, head, head_under, centre, centre_under, number;
    bool misprint;
  };
  const std::vector<Row> rows{
      {12, 6, 4, 8, 4.5, 7.5, 530, false},     {12, 8, 4, 8, 4.5, 7.5, 400, false},
      {13, 6, 4.5, 8.5, 5, 8, 480, false},     {16, 8, 6, 10, 6.5, 9.5, 266, true},
      {18, 10, 7, 11, 7.5, 10.5, 192, false},  {20, 10, 8, 12, 8.5, 11.5, 170, false},
      {22, 11, 9, 13, 9.5, 12.5, 138, false},  {24, 12, 10, 14, 10.5, 13.5, 115, false},
      {26, 16, 11, 15, 11.5, 14.5, 79, false}, {30, 24, 0, 0, 13.5, 16.5, 36, true},
      {36, 24, 0, 0, 16.5, 19.5, 25, true}};
  int misprints = 0;
  for (const Row& row : rows) {
    for (const bool head : {false, true}) {
      if (head && row.head == 0) continue;  // not printed
      const double gauge = head ? row.head : row.centre;
      Roof roof;
      roof.unit = "in";
      roof.width = 200;
      roof.rafter = 10 * gauge;
      roof.wall = R"("kind": "brick", "course": 3, "first_joint": 1)";
      roof.covering = slate(row.length, row.width, 3, head ? "head" : "centre");
      const job::Plan plan = planned(roof).plan;
      const job::SetOut& out = plan.set_out[0];
      // The book takes a whole inch for the head nail, the pack 25 mm.
      EXPECT_NEAR(figure_value(out.figures, "largest_gauge") / kInch, gauge, 0.01) << row.length;
      EXPECT_NEAR(plan.rows.front().length.in_inches(), head ? row.head_under : row.centre_under, 0.01)
          << row.length;
      if (head) continue;
      const double number = 144 * 100 / (row.width * out.gauge.in_inches());
      const bool agrees = std::fabs(number - row.number) <= 0.01 * row.number;
      EXPECT_EQ(agrees, !row.misprint) << row.length << " × " << row.width << ": " << number;
      misprints += agrees ? 0 : 1;
    }
  }
  EXPECT_EQ(misprints, 3);  // 16 × 8 (276.9), 30 × 24 (44.4), 36 × 24 (36.4)
  // Countess with 4 in lap, the same book: centre 8, head 7½.
  for (const auto& [nailing, gauge] : {std::pair{"centre", 8.0}, std::pair{"head", 7.5}}) {
    Roof roof;
    roof.unit = "in";
    roof.width = 200;
    roof.rafter = 10 * gauge;
    roof.wall = R"("kind": "brick", "course": 3, "first_joint": 1)";
    roof.covering = slate(20, 10, 4, nailing);
    EXPECT_NEAR(figure_value(planned(roof).plan.set_out[0].figures, "largest_gauge") / kInch, gauge, 0.01);
  }
}

// The same book's eaves: head-nailed, gauge 6 in, headlap 3 in: under-course 10 in, and its batten, at
// overhang 2 in, 8 in above the fascia's edge, so 10 in above the tail.
TEST(Published, eaves_of_head_nailed_slates) {
  Roof roof;
  roof.unit = "in";
  roof.width = 200;
  roof.rafter = 60;
  roof.wall = R"("kind": "brick", "course": 3, "first_joint": 1)";
  roof.covering = slate(16, 8, 3, "head");
  const job::Plan plan = planned(roof).plan;
  EXPECT_NEAR(plan.rows.front().length.in_inches(), 10, 0.01);
  ASSERT_FALSE(plan.set_out[0].battens.empty());
  EXPECT_EQ(plan.set_out[0].battens[0].course, -1);
  EXPECT_NEAR(plan.set_out[0].battens[0].mark.in_inches(), 10, 0.01);
}

// Geometry: a tile whose nib is 240 above its tail, overhanging by 50, hangs from a batten 190 up from the
// fascia.
TEST(Published, first_tile_batten) {
  const job::Plan plan = planned({}).plan;
  ASSERT_GE(plan.set_out[0].battens.size(), 2U);
  EXPECT_NEAR(plan.set_out[0].battens[1].mark.in_mm() - 50, 190, 1e-6);
}

// Trade consultants' technical note: L 500, H 100, centre-nailed: gauge 200, hole 304 at clearance 4, largest
// H 167.
TEST(Published, gauge_and_hole) {
  Roof roof;
  roof.covering = slate(500, 250, 100);
  roof.practice = R"("slate.hole_clearance": 4)";
  const job::Plan plan = planned(roof).plan;
  EXPECT_NEAR(plan.set_out[0].gauge.in_mm(), 200, 1e-6);
  EXPECT_NEAR(figure_value(plan.set_out[0].figures, "hole_gauge"), 304, 1e-6);
  EXPECT_EQ(finding(plan, "headlap.over_share"), nullptr);
  roof.covering = slate(500, 250, 168);
  EXPECT_NE(finding(planned(roof).plan, "headlap.over_share"), nullptr);
  roof.covering = slate(500, 250, 166);
  roof.rafter = 10 * (500 - 166) / 2.0;
  EXPECT_EQ(finding(planned(roof).plan, "headlap.over_share"), nullptr);
}

// Common practice, no source: soakers at an allowance of 25.
TEST(Published, soaker_lengths) {
  const auto length = [](const Roof& roof) {
    const job::Plan plan = planned(roof).plan;
    return figure_value(pieces_of(plan, "soaker").at(0)->figures, "length");
  };
  Roof roof;
  EXPECT_NEAR(length(roof), 190, 1e-6);  // plain tile 265 at 100
  roof.covering = slate(500, 250, 100);
  EXPECT_NEAR(length(roof), 325, 1e-6);
  roof.covering = slate(500, 250, 100, "head");
  roof.rafter = 3000;
  EXPECT_NEAR(length(roof), 337.5, 1e-6);
}

// Geometry of the trade's rule "65 + (c + 25)·cos": 147 at 35°, 136 at 45°, 157 at 22.5°, for courses of 75.
TEST(Published, strip_of_a_step_flashing) {
  for (const auto& [pitch, needed] : std::map<double, double>{{35, 147}, {45, 136}, {22.5, 157}}) {
    Roof roof;
    roof.pitch = pitch;
    const job::Plan plan = planned(roof).plan;
    EXPECT_NEAR(figure_value(pieces_of(plan, "step-flashing").at(0)->figures, "width_needed"), needed, 0.5);
  }
  const auto strip = [](double pitch, int course) {
    Roof roof;
    roof.pitch = pitch;
    roof.wall = R"("kind": "brick", "first_joint": 30, "course": )" + std::to_string(course);
    const job::Plan plan = planned(roof).plan;
    return pieces_of(plan, "step-flashing").at(0)->width.in_mm();
  };
  EXPECT_EQ(strip(31.8, 75), 150);
  EXPECT_EQ(strip(31.7, 75), 180);
  EXPECT_EQ(strip(38.1, 83), 150);
  EXPECT_EQ(strip(38.0, 83), 180);
}

// Geometry: the smallest whole number of steps that laps at least 100, courses of 75.
TEST(Published, laps_of_step_flashings) {
  for (const auto& [pitch, lap] :
       std::map<double, double>{{30, 150}, {35, 131}, {45, 106}, {22.5, 196}, {60, 173}}) {
    Roof roof;
    roof.pitch = pitch;
    const job::Plan plan = planned(roof).plan;
    EXPECT_NEAR(figure_value(pieces_of(plan, "step-flashing").at(0)->figures, "lap"), lap, 0.5) << pitch;
  }
  // At 30° a piece of 1500 has ten steps, of which nine advance.
  Roof roof;
  roof.pitch = 30;
  roof.rafter = 9000;
  const job::Plan plan = planned(roof).plan;
  const job::Piece* most = nullptr;
  for (const job::Piece* p : pieces_of(plan, "step-flashing")) {
    if (most == nullptr || p->count > most->count) most = p;
  }
  ASSERT_NE(most, nullptr);
  ASSERT_GE(most->count, 3);
  EXPECT_EQ(figure_value(most->figures, "steps"), 10);
  EXPECT_NEAR(most->placements[1].frame.origin.y - most->placements[0].frame.origin.y, 9 * 150, 0.01);
}

// Geometry: at 40° a joint must stand 85 above the roof (65 square to it) before the first step.
TEST(Published, first_joint_that_clears) {
  const job::Plan plan = planned({}).plan;
  EXPECT_NEAR(sample::param(finding(plan, "step.joints_below_water_line"), "clears"), 85, 0.5);
}

// Lead trade body's manual, as quoted (rounded to 10): 75 / sin, not less than 150.
TEST(Published, laps_down_a_slope) {
  const auto pack = practice::Pack::built_in();
  ASSERT_TRUE(pack);
  for (const auto& [pitch, lap] :
       std::map<double, double>{{30, 150}, {22, 200}, {17.5, 250}, {15, 290}, {11, 390}}) {
    const double ours = std::max(pack->number("lap.least"), pack->number("lap.rise") / sin_deg(pitch));
    EXPECT_NEAR(ours, lap, 5) << pitch;
  }
  EXPECT_EQ(std::max(pack->number("lap.least"), pack->number("lap.rise") / sin_deg(50)), 150);
}

// Published roof-framing examples of hip and valley pitch; the vectors are the test's own, the rule the
// trade's.
TEST(Published, true_pitch_of_a_valley) {
  struct Example {
    double first, second, corner, pitch;  // two slopes, the corner between their eaves on plan
  };
  for (const Example& e : {Example{45, 33.69007, 90, 29.0171}, Example{39.80557, 47.29061, 90, 33.44556},
                           Example{35, 35, 90, 26.3}, Example{30, 30, 90, 22.2}, Example{40, 40, 90, 30.7},
                           Example{45, 45, 90, 35.3}}) {
    constexpr double kDegree = 3.14159265358979323846 / 180;
    // Planes z = tan(first)·y and z = tan(second)·(y·cos + x·sin of the corner turned back); the valley is
    // their line.
    const double a = std::tan(e.first * kDegree);
    const double b = std::tan(e.second * kDegree);
    const double nx = std::sin(e.corner * kDegree);
    const double ny = -std::cos(e.corner * kDegree);
    // The line's direction (x, y) on plan makes both rises equal: a·y = b·(nx·x + ny·y).
    const double x = a - b * ny;
    const double y = b * nx;
    const double by_vectors = std::atan2(a * y, std::hypot(x, y)) / kDegree;
    const double plan_angle = std::atan2(y, x) / kDegree;
    const double by_rule = atan_deg(tan_deg(e.first) * sin_deg(plan_angle));
    EXPECT_NEAR(by_vectors, by_rule, 1e-9);
    EXPECT_NEAR(by_rule, e.pitch, e.pitch == 29.0171 || e.pitch == 33.44556 ? 5e-4 : 0.05);
  }
  EXPECT_NEAR(atan_deg(tan_deg(33.69007) * sin_deg(67.5)), 31.6297, 5e-4);
}

}  // namespace
}  // namespace lapwright
