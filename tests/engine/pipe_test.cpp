// Pipe slates: the base's size against what is published, the sleeve against the hole that it is welded into.
#include "planned.h"
#include "planner.h"
#include "planning.h"

#include <lapwright/base/generator.h>
#include <lapwright/engine/engine.h>
#include <lapwright/geom/net.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace lapwright {
namespace {

using job::Level;
using sample::figure_value;
using sample::finding;
using sample::param;
using sample::pieces_of;

constexpr double kRadian = 3.14159265358979323846 / 180;

struct Pipe {
  double pitch = 35;
  double rafter = 4000;
  double at = 2000;
  double up = 2060;
  double diameter = 110;
  std::string more;  // more junctions
};

std::string text_of(const Pipe& p) {
  return R"({ "format": "lapwright-job/1", "slopes": [ { "name": "roof", "pitch": )" +
         std::to_string(p.pitch) + R"(, "rafter": )" + std::to_string(p.rafter) +
         R"(, "width": 4000, "covering": { "kind": "profiled-tile", "length": 420, "width": 330, "thickness": 16,
         "max_gauge": 345, "roll_pitch": 100, "roll_depth": 30 }, "junctions": [ { "name": "pipe", "kind": "pipe",
         "at": )" +
         std::to_string(p.at) + R"(, "up": )" + std::to_string(p.up) + R"(, "diameter": )" +
         std::to_string(p.diameter) + " }" + p.more + " ] } ] }";
}

job::Plan planned(const std::string& bytes) {
  auto whole = sample::plan_job(bytes);
  EXPECT_TRUE(whole) << bytes;
  return whole ? std::move(whole->plan) : job::Plan{};
}

// Trade consultants' technical note: 450 × 450 at 35° for a pipe of 150 or less; at 22.5° side lap 200, head
// lap 190 (printed to the nearest 10: 75 / sin 22.5° is 196), so 510 × 510 with a pipe of 110.
TEST(Pipe, base_as_published) {
  for (const double diameter : {50.0, 110.0, 150.0}) {
    Pipe pipe;
    pipe.diameter = diameter;
    const job::Plan plan = planned(text_of(pipe));
    ASSERT_EQ(pieces_of(plan, "pipe-slate").size(), 1U);
    EXPECT_NEAR(pieces_of(plan, "pipe-slate")[0]->length.in_mm(), 450, 1e-9) << diameter;
    EXPECT_EQ(pieces_of(plan, "pipe-slate")[0]->width, Length::mm(450));
  }
  const job::Plan kept = planned(sample::file_bytes("tests/jobs/cases/pipe-35.json"));
  EXPECT_NEAR(pieces_of(kept, "pipe-slate")[0]->length.in_mm(), 450, 1e-9);
  const job::Plan flat = planned(sample::file_bytes("tests/jobs/cases/pipe-22.json"));
  const job::Piece& base = *pieces_of(flat, "pipe-slate")[0];
  EXPECT_NEAR(base.length.in_mm(), 510, 1e-9);
  EXPECT_EQ(base.width, Length::mm(510));
  EXPECT_NEAR(figure_value(base.figures, "side_lap"), 200, 1e-9);
  EXPECT_NEAR(figure_value(base.figures, "head_lap"), 190, 10);
  EXPECT_EQ(base.code, 4);
}

// The head lap is counted from the tail of the course above where that lies above the pipe.
TEST(Pipe, head_reaches_under_the_course_above) {
  for (double up = 600; up < 3400; up += 37) {
    for (const double pitch : {15.0, 22.5, 35.0, 60.0}) {
      Pipe pipe;
      pipe.up = up;
      pipe.pitch = pitch;
      const job::Plan plan = planned(text_of(pipe));
      const job::Piece& base = *pieces_of(plan, "pipe-slate")[0];
      const geom::Vec3 tail = base.placements[0].frame.origin;
      const double half = pipe.diameter / std::cos(pitch * kRadian) / 2;
      EXPECT_NEAR(tail.y, up - half - 100, 1e-6);
      double over = 0;
      for (const Length t : plan.set_out[0].tails) {
        if (t.in_mm() >= tail.y && over == 0) over = t.in_mm();
      }
      const double from = std::max(over, up + half);
      EXPECT_GE(tail.y + base.length.in_mm() - from, 75 / std::sin(pitch * kRadian) - 1e-6) << up;
    }
  }
}

TEST(Pipe, goes_in_before_the_course_that_covers_its_head) {
  const job::Plan plan = planned(sample::file_bytes("tests/jobs/cases/pipe-22.json"));
  const double tail = pieces_of(plan, "pipe-slate")[0]->placements[0].frame.origin.y;
  bool found = false;
  for (const job::WorkStep& step : plan.order_of_work) {
    if (step.step != "work.pipe_slate") continue;
    found = true;
    ASSERT_GE(step.course, 1);
    const auto over = static_cast<std::size_t>(step.course);
    EXPECT_GE(plan.set_out[0].tails[over].in_mm(), tail);
    EXPECT_LT(plan.set_out[0].tails[over - 1].in_mm(), tail);
    EXPECT_NE(step.text.find("196 mm over its head"), std::string::npos) << step.text;
    EXPECT_EQ(step.mark, "P1");
  }
  EXPECT_TRUE(found);
}

double between(geom::Vec3 a, geom::Vec3 b) {
  return geom::length_of(a - b);
}

// In space, from the pitch alone: an upright pipe meets the plane n = 0 in an ellipse; the sleeve's facets
// are upright, their lower edges are the hole's edges, their top is level.
TEST(Pipe, sleeve_meets_the_hole_on_random_roofs) {
  Generator random(20260513);
#ifdef __SANITIZE_ADDRESS__
  constexpr int kRoofs = 500;
#else
  constexpr int kRoofs = 10'000;
#endif
  for (int i = 0; i < kRoofs && !HasFailure(); ++i) {
    Pipe pipe;
    pipe.rafter = 1400;
    pipe.up = 500 + 400 * random.unit();
    pipe.pitch = 11 + 64 * random.unit();
    pipe.diameter = 30 + 300 * random.unit();
    const std::string text = text_of(pipe);
    const job::Plan plan = planned(text);
    const auto bases = pieces_of(plan, "pipe-slate");
    const auto sleeves = pieces_of(plan, "pipe-sleeve");
    ASSERT_EQ(bases.size(), 1U) << text;
    ASSERT_EQ(sleeves.size(), 1U) << text;
    const job::Piece& base = *bases[0];
    const job::Piece& sleeve = *sleeves[0];
    ASSERT_FALSE(geom::fault_of(base.net).has_value()) << text;
    ASSERT_FALSE(geom::fault_of(sleeve.net).has_value()) << text;

    // The hole where it lies.
    ASSERT_EQ(base.net.holes.size(), 1U);
    const geom::Frame& flat = base.placements[0].frame;
    std::vector<geom::Vec3> hole;
    for (const geom::GridPoint g : base.net.holes[0]) {
      hole.push_back(flat.at(static_cast<double>(g.x) / 1000, static_cast<double>(g.y) / 1000));
    }
    ASSERT_GE(hole.size(), 48U);
    const double cosine = std::cos(pipe.pitch * kRadian);
    const double sine = std::sin(pipe.pitch * kRadian);
    const double r = pipe.diameter / 2;
    double wide = 0;
    double tall = 0;
    for (const geom::Vec3& p : hole) {
      EXPECT_NEAR(p.z, 0, 1e-9);
      const double x = p.x - pipe.at;
      const double y = (p.y - pipe.up) * cosine;  // level
      EXPECT_NEAR(std::hypot(x, y), r, 0.01) << text;
      wide = std::max(wide, 2 * std::fabs(x));
      tall = std::max(tall, 2 * std::fabs(p.y - pipe.up));
    }
    EXPECT_NEAR(wide, pipe.diameter, 0.01);
    EXPECT_NEAR(tall, pipe.diameter / cosine, 0.01);

    // Each facet of the sleeve, folded round.
    const auto panels = geom::split_into_panels(sleeve.net, sleeve.base_point);
    ASSERT_TRUE(panels) << text;
    ASSERT_EQ(panels->size(), hole.size());
    const auto frames = geom::fold_panels(sleeve.net, *panels, sleeve.placements[0].frame);
    const geom::Vec3 upright{0, sine, cosine};
    const auto height = [&](geom::Vec3 p) { return p.y * sine + p.z * cosine; };
    const double top = height({0, pipe.up + r / cosine, 0}) + 150;
    double seam_gap = 0;
    std::vector<bool> met(hole.size(), false);
    for (std::size_t k = 0; k < panels->size(); ++k) {
      EXPECT_NEAR(geom::dot(frames[k].normal(), upright), 0, 1e-6);
      std::vector<geom::Vec3> low;
      for (const geom::GridPoint g : (*panels)[k].ring) {
        const geom::Vec3 p = frames[k].at(static_cast<double>(g.x) / 1000, static_cast<double>(g.y) / 1000);
        if (std::fabs(height(p) - top) <= 0.1) continue;
        EXPECT_NEAR(p.z, 0, 0.1) << text;
        low.push_back(p);
      }
      ASSERT_EQ(low.size(), 2U) << text;
      // Outward: away from the pipe's middle.
      const geom::Vec3 middle{pipe.at, pipe.up, 0};
      EXPECT_GT(geom::dot(frames[k].normal(), 0.5 * (low[0] + low[1]) - middle), 0);
      for (std::size_t h = 0; h < hole.size(); ++h) {
        const geom::Vec3 a = hole[h];
        const geom::Vec3 b = hole[(h + 1) % hole.size()];
        const double off = std::min(std::max(between(a, low[0]), between(b, low[1])),
                                    std::max(between(a, low[1]), between(b, low[0])));
        if (off > 0.1) continue;
        EXPECT_FALSE(met[h]) << text;
        met[h] = true;
        seam_gap = std::max(seam_gap, std::fabs(between(a, b) - between(low[0], low[1])));
      }
    }
    EXPECT_EQ(std::count(met.begin(), met.end(), true), static_cast<std::ptrdiff_t>(hole.size())) << text;
    EXPECT_LE(seam_gap, 0.01);
    EXPECT_NEAR(sleeve.width.in_mm(), 150 + pipe.diameter * sine / cosine, 1e-3);
  }
}

TEST(Pipe, near_another_junction_or_an_edge_is_a_doubt) {
  Pipe pipe;
  const job::Plan clear = planned(text_of(pipe));
  EXPECT_EQ(finding(clear, "pipe.near_junction"), nullptr);
  EXPECT_EQ(finding(clear, "pipe.past_edge"), nullptr);
  const auto over = [&](double at, double up) {
    Pipe there;
    there.at = at;
    there.up = up;
    return param(finding(planned(text_of(there)), "pipe.past_edge"), "over");
  };
  EXPECT_NEAR(over(200, 2060), 25, 1e-6);  // half the base is 225
  EXPECT_NEAR(over(3800, 2060), 25, 1e-6);
  const double half = 110 / std::cos(35 * kRadian) / 2;
  EXPECT_NEAR(over(2000, 150), 100 + half - 150, 1e-6);
  EXPECT_NEAR(over(2000, 3800), 3800 - half - 100 + 450 - 4000, 1e-6);
  const auto with = [&](const std::string& other) {
    Pipe there;
    there.more = ", " + other;
    return planned(text_of(there));
  };
  const job::Finding* said = nullptr;
  const job::Plan stack =
      with(R"({ "name": "stack", "kind": "stack", "at": 2500, "front": 1800, "width": 600, "depth": 440 })");
  said = finding(stack, "pipe.near_junction");  // its left side at 2200, the base's right at 2225
  ASSERT_NE(said, nullptr);
  EXPECT_NE(said->text.find("stack"), std::string::npos);
  const job::Plan apart =
      with(R"({ "name": "stack", "kind": "stack", "at": 2530, "front": 1800, "width": 600, "depth": 440 })");
  EXPECT_EQ(finding(apart, "pipe.near_junction"), nullptr);
  const job::Plan two = with(R"({ "name": "vent", "kind": "pipe", "at": 2250, "up": 2060, "diameter": 60 })");
  EXPECT_NE(finding(two, "pipe.near_junction"), nullptr);
  const job::Plan far = with(R"({ "name": "vent", "kind": "pipe", "at": 2650, "up": 2060, "diameter": 60 })");
  EXPECT_EQ(finding(far, "pipe.near_junction"), nullptr);
}

// Common practice, no source.
TEST(Pipe, wider_than_300_is_a_doubt) {
  Pipe pipe;
  pipe.diameter = 300;
  EXPECT_EQ(finding(planned(text_of(pipe)), "pipe.too_wide"), nullptr);
  EXPECT_EQ(finding(planned(text_of(pipe)), "pipe.no_strip"), nullptr);
  pipe.diameter = 301;
  const job::Plan plan = planned(text_of(pipe));
  ASSERT_NE(finding(plan, "pipe.too_wide"), nullptr);
  EXPECT_EQ(finding(plan, "pipe.too_wide")->level, Level::doubt);
  EXPECT_NE(finding(plan, "pipe.no_strip"), nullptr);  // 301 + 2 · 150, and strips end at 600
}

}  // namespace
}  // namespace lapwright
