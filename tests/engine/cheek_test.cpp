// A cheek that runs out under its own eaves. Common practice, no source: nobody prints where lead stops
// there.
#include "judge.h"
#include "planned.h"
#include "planner.h"
#include "planning.h"
#include "random_job.h"

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

std::string text_of(double pitch, const std::string& clear, const std::string& hand = "right",
                    const std::string& to = "") {
  return R"({ "format": "lapwright-job/1", "slopes": [ { "name": "roof", "pitch": )" + std::to_string(pitch) +
         R"(, "rafter": 3600, "width": 4000, "covering": { "kind": "plain-tile", "length": 265, "width": 165,
         "thickness": 12 }, "junctions": [ { "name": "cheek", "kind": "side", "hand": ")" +
         hand + "\"" + to + R"(, "wall": { "course": 75, "first_joint": 30 }, "clear": )" + clear +
         " } ] } ] }";
}

engine::Planned planned(const std::string& bytes) {
  auto whole = sample::plan_job(bytes);
  EXPECT_TRUE(whole) << bytes;
  return whole ? std::move(*whole)
               : engine::Planned{{}, *practice::Pack::built_in(), *practice::Catalogue::built_in(), {}};
}

// Highest s that a piece of the kind reaches.
double top_of(const job::Plan& plan, const char* kind) {
  double top = 0;
  for (const job::Piece* piece : pieces_of(plan, kind)) {
    const double length = static_cast<double>(geom::bounds(piece->net.outline).width()) / 1000;
    for (const job::Placement& place : piece->placements) {
      top = std::max({top, place.frame.at(0, 0).y, place.frame.at(length, 0).y});
    }
  }
  return top;
}

// 1500 falling to nothing over 2000: 300 is left at 1600, and 400 are boxed out.
TEST(Cheek, lead_stops_where_300_is_left) {
  const engine::Planned job = planned(sample::file_bytes("tests/jobs/cases/a14-cheek.json"));
  const job::Plan& plan = job.plan;
  const job::Finding* said = finding(plan, "cheek.runs_out");
  ASSERT_NE(said, nullptr);
  EXPECT_EQ(said->level, Level::doubt);
  EXPECT_NEAR(param(said, "at"), 1600, 1e-6);
  EXPECT_NEAR(param(said, "length"), 400, 1e-6);
  EXPECT_NEAR(param(said, "low"), 300, 1e-6);
  EXPECT_NEAR(param(said, "high"), 0, 1e-6);
  for (const job::Piece* soaker : pieces_of(plan, "soaker")) {
    for (const job::Placement& place : soaker->placements) EXPECT_LT(place.course, 16);
  }
  EXPECT_FALSE(pieces_of(plan, "soaker").empty());
  // The last flashing leans out to the wall's plumb end: turn-in and height times sin θ past it, no more.
  EXPECT_LT(top_of(plan, "step-flashing"), 1600 + 200 * std::sin(40 * kRadian));
  const auto strips = pieces_of(plan, "cheek-flashing");
  ASSERT_EQ(strips.size(), 1U);
  EXPECT_NEAR(strips[0]->length.in_mm(), 400, 1e-6);
  EXPECT_EQ(strips[0]->mark, "H1");
  EXPECT_NEAR(top_of(plan, "cheek-flashing"), 2000, 1e-3);
}

TEST(Cheek, courses_are_laid_before_the_soffit_is_fixed) {
  const engine::Planned job = planned(sample::file_bytes("tests/jobs/cases/a14-cheek.json"));
  const auto& work = job.plan.order_of_work;
  const auto at = [&](const char* word) {
    return std::find_if(work.begin(), work.end(), [&](const job::WorkStep& s) { return s.step == word; }) -
           work.begin();
  };
  const auto size = static_cast<std::ptrdiff_t>(work.size());
  ASSERT_LT(at("work.cheek_soffit"), size);
  EXPECT_LT(at("work.cheek_courses"), at("work.cheek_flashing"));
  EXPECT_LT(at("work.cheek_flashing"), at("work.cheek_box"));
  EXPECT_LT(at("work.cheek_box"), at("work.cheek_soffit"));
  EXPECT_EQ(work[static_cast<std::size_t>(at("work.cheek_courses"))].course, 16);
  EXPECT_NE(work[static_cast<std::size_t>(at("work.cheek_courses"))].text.find("before the soffit"),
            std::string::npos);
  for (std::size_t i = static_cast<std::size_t>(at("work.cheek_soffit")); i < work.size(); ++i) {
    EXPECT_FALSE(work[i].step.starts_with("work.course")) << work[i].text;
  }
}

TEST(Cheek, limit_on_both_sides) {
  const auto at_end = [](int height) {
    return planned(text_of(
        40, R"([{ "at": 0, "height": 2000 }, { "at": 3600, "height": )" + std::to_string(height) + " }]"));
  };
  const auto above = at_end(301);
  EXPECT_EQ(finding(above.plan, "cheek.runs_out"), nullptr);
  EXPECT_TRUE(pieces_of(above.plan, "cheek-flashing").empty());
  const auto below = at_end(290);  // under 300 from 3578.9 on
  ASSERT_NE(finding(below.plan, "cheek.runs_out"), nullptr);
  EXPECT_NEAR(param(finding(below.plan, "cheek.runs_out"), "high"), 290, 1e-6);
  EXPECT_NEAR(param(finding(below.plan, "cheek.runs_out"), "at"), 3600 * 1700.0 / 1710, 1e-6);
  // What hangs high over the wall changes nothing.
  const std::string text = text_of(40, R"([{ "at": 0, "height": 5000 }, { "at": 3600, "height": 301 }])");
  std::string without = text;
  const std::size_t key = without.find(", \"clear\"");
  without.erase(key, without.find(']', key) + 1 - key);
  const auto free = planned(without);
  ASSERT_EQ(free.plan.pieces.size(), above.plan.pieces.size());
  for (std::size_t i = 0; i < free.plan.pieces.size(); ++i) {
    EXPECT_TRUE(geom::same_net(free.plan.pieces[i].net, above.plan.pieces[i].net));
  }
}

TEST(Cheek, with_no_room_anywhere_is_all_boxed_out) {
  const auto job = planned(text_of(40, R"([{ "at": 0, "height": 250 }, { "at": 1000, "height": 0 }])"));
  EXPECT_TRUE(pieces_of(job.plan, "soaker").empty());
  EXPECT_TRUE(pieces_of(job.plan, "step-flashing").empty());
  EXPECT_FALSE(pieces_of(job.plan, "cheek-flashing").empty());
  EXPECT_NEAR(param(finding(job.plan, "cheek.runs_out"), "length"), 1000, 1e-6);
}

// A soffit that meets the roof at once ends the wall there; there is nothing to box out.
TEST(Cheek, that_ends_at_once_needs_no_box) {
  const auto job = planned(text_of(40, R"([{ "at": 0, "height": 900 }, { "at": 1999, "height": 900 },
                                            { "at": 2000, "height": 0 }])"));
  EXPECT_TRUE(pieces_of(job.plan, "cheek-flashing").empty());
  for (const job::Piece* soaker : pieces_of(job.plan, "soaker")) {
    for (const job::Placement& place : soaker->placements) EXPECT_LT(place.course, 20);
  }
}

// The leg lies on the roof; the upstand stands on the wall's plane, under the soffit: the soffit's points are
// put up from the roof by vectors and the upstand's corners held against the lines between them.
TEST(Cheek, strip_lies_on_the_roof_and_under_the_soffit) {
  Generator random(20260514);
  std::int64_t strips = 0;
  constexpr int kRoofs = 2000;
  for (int i = 0; i < kRoofs && !HasFailure(); ++i) {
    const double pitch = static_cast<double>(random.between(350, 600)) / 10;
    const int first = static_cast<int>(random.between(100, 1500));
    const int places = static_cast<int>(random.between(2, 4));
    std::string clear = "[";
    std::vector<std::pair<double, double>> soffit;
    int at = static_cast<int>(random.between(0, 300));
    int height = first;
    for (int k = 0; k < places; ++k) {
      if (k > 0) {
        const int step = static_cast<int>(random.between(100, 1400));
        at += step;
        // A soffit comes down towards the roof no steeper than upright.
        height = k + 1 == places ? 0 : std::max(0, height - static_cast<int>(random.between(0, step)));
      }
      soffit.emplace_back(at, height);
      clear += (k > 0 ? ", " : "") + std::string(R"({ "at": )") + std::to_string(at) + R"(, "height": )" +
               std::to_string(height) + " }";
    }
    clear += "]";
    const std::string hand = random.chance(0.5) ? "left" : "right";
    const std::string text = text_of(pitch, clear, hand);
    const auto job = planned(text);
    const double sine = std::sin(pitch * kRadian);
    const double cosine = std::cos(pitch * kRadian);
    for (const job::Piece* piece : pieces_of(job.plan, "cheek-flashing")) {
      ++strips;
      ASSERT_FALSE(geom::fault_of(piece->net).has_value()) << text;
      const auto panels = geom::split_into_panels(piece->net, piece->base_point);
      ASSERT_TRUE(panels) << text;
      ASSERT_EQ(panels->size(), 2U) << text;
      const auto frames = geom::fold_panels(piece->net, *panels, piece->placements[0].frame);
      const double wall = hand == "left" ? 0 : 4000;
      for (std::size_t k = 0; k < 2; ++k) {
        for (const geom::GridPoint g : (*panels)[k].ring) {
          const geom::Vec3 p = frames[k].at(static_cast<double>(g.x) / 1000, static_cast<double>(g.y) / 1000);
          if (k == 0) {
            EXPECT_NEAR(p.z, 0, 0.1) << text;
            EXPECT_LE(std::fabs(p.x - wall), 150 + 0.1) << text;
            continue;
          }
          EXPECT_NEAR(p.x, wall, 0.1) << text;
          EXPECT_GE(p.z, -0.1) << text;
          EXPECT_LE(p.z, 75 + 0.1) << text;
          // Straight below a soffit point stands the foot at s − n·tan θ, with p.z / cos θ upright above it.
          const double foot = p.y - p.z * sine / cosine;
          const double upright = p.z / cosine;
          double room = soffit.front().second;
          for (std::size_t m = 1; m < soffit.size(); ++m) {
            if (foot < soffit[m - 1].first) continue;
            const double t = (foot - soffit[m - 1].first) / (soffit[m].first - soffit[m - 1].first);
            room = t > 1 ? soffit[m].second
                         : soffit[m - 1].second + t * (soffit[m].second - soffit[m - 1].second);
          }
          EXPECT_LE(upright, room + 0.1) << text << "\n" << p.y << " " << p.z;
        }
      }
      EXPECT_LE(piece->length.in_mm(), 1500 + 1e-6);
    }
    if (i % 16 != 0) continue;
    const auto mirrored = planned(sample::mirrored_job(text));
    EXPECT_EQ(sample::mirror_complaint({job.survey, job.pack, job.plan}, mirrored.plan), "") << text;
  }
  EXPECT_GT(strips, kRoofs / 2);
}

}  // namespace
}  // namespace lapwright
