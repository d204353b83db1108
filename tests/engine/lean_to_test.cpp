// The corner of a lean-to, where a top abutment meets the walls at its sides: the ends of the apron, folded,
// against the walls' planes.
#include "planned.h"
#include "planner.h"

#include <lapwright/base/generator.h>
#include <lapwright/geom/net.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace lapwright {
namespace {

using geom::Vec3;

constexpr double kTenth = 0.1;  // mm: a folded panel against its plane

struct LeanTo {
  double pitch = 35;
  double units = 12;
  double width = 3000;
  double left_to = 2400;  // how far up the slope either wall goes; the slope is 2400 long
  double right_to = 2400;
  bool left = true;
  bool right = true;
  std::string corners = "bossed";

  std::string job() const {
    const auto side = [](const std::string& hand, double to) {
      return R"({ "name": ")" + hand + R"( wall", "kind": "side", "hand": ")" + hand + R"(", "to": )" +
             std::to_string(to) + R"(, "wall": { "kind": "brick", "course": 75, "first_joint": 30 } }, )";
    };
    return R"({ "format": "lapwright-job/1", "slopes": [ { "pitch": )" + std::to_string(pitch) +
           R"(, "rafter": 2400, "width": )" + std::to_string(width) +
           R"(, "covering": { "kind": "plain-tile", "length": 265, "width": 165, "thickness": )" +
           std::to_string(units) + R"( }, "junctions": [ )" + (left ? side("left", left_to) : "") +
           (right ? side("right", right_to) : "") + R"({ "name": "house", "kind": "top", "corners": ")" +
           corners + R"(", "wall": { "kind": "brick", "course": 75, "first_joint": 30 } } ] } ] })";
  }
};

using Ring = std::vector<Vec3>;

std::vector<Ring> folded(const job::Piece& piece, const job::Placement& place) {
  std::vector<Ring> out;
  EXPECT_EQ(geom::fault_of(piece.net), std::nullopt);
  const auto panels = geom::split_into_panels(piece.net, piece.base_point);
  EXPECT_TRUE(panels);
  if (!panels) return out;
  const auto frames = geom::fold_panels(piece.net, *panels, place.frame);
  for (std::size_t i = 0; i < frames.size(); ++i) {
    out.emplace_back();
    for (const geom::GridPoint g : (*panels)[i].ring)
      out.back().push_back(frames[i].at(static_cast<double>(g.x) / 1000, static_cast<double>(g.y) / 1000));
  }
  return out;
}

double strays(const Ring& ring, Vec3 point, Vec3 normal) {
  double worst = 0;
  for (const Vec3& p : ring) worst = std::max(worst, std::fabs(dot(p - point, normal)));
  return worst;
}

// Edges of one panel that lie, both ends, on an edge of the other.
std::size_t edges_that_meet(const Ring& a, const Ring& b) {
  std::size_t out = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (std::size_t j = 0; j < b.size(); ++j) {
      const Vec3 from = a[i];
      const Vec3 to = a[(i + 1) % a.size()];
      const Vec3 other_from = b[j];
      const Vec3 other_to = b[(j + 1) % b.size()];
      out += length_of(from - other_to) < kTenth && length_of(to - other_from) < kTenth;
      out += length_of(from - other_from) < kTenth && length_of(to - other_to) < kTenth;
    }
  }
  return out;
}

// The cover lies on the units, the upstand stands on the top wall, and at each corner two panels on the wall
// at the side: square to the slope's edge and beside the plumb corner. Welded, they meet edge to edge.
TEST(LeanTo, ends_of_the_apron_stand_on_the_side_walls) {
  Generator random(20261129);
#ifdef __SANITIZE_ADDRESS__
  constexpr int kRoofs = 300;
#else
  constexpr int kRoofs = 2'000;
#endif
  std::size_t turned = 0;
  for (int i = 0; i < kRoofs && !HasFailure(); ++i) {
    LeanTo roof;
    roof.pitch = 35 + 0.5 * static_cast<double>(random.between(0, 70));
    roof.units = static_cast<double>(random.between(8, 20));
    roof.width = static_cast<double>(random.between(700, 5000));
    roof.left = random.chance(0.7);
    roof.right = random.chance(0.7);
    const bool welded = random.chance(0.5);
    roof.corners = welded ? "welded" : "bossed";
    const std::string job = roof.job();
    const auto planned = sample::plan_job(job);
    ASSERT_TRUE(planned) << job;
    const double t = roof.pitch * std::acos(-1.0) / 180;
    const Vec3 level{0, std::cos(t), -std::sin(t)};
    const Vec3 top{0, 2400, 0};
    std::size_t at_left = 0;
    std::size_t at_right = 0;
    for (const job::Piece* piece : sample::pieces_of(planned->plan, "apron")) {
      EXPECT_LE(piece->length.in_mm(), 1500 + 1e-6);  // NHBC Standards 7.2.20
      for (const job::Placement& place : piece->placements) {
        std::vector<Ring> on_left;
        std::vector<Ring> on_right;
        for (const Ring& ring : folded(*piece, place)) {
          const bool cover = strays(ring, {0, 0, roof.units}, {0, 0, 1}) < kTenth;
          const bool upstand = strays(ring, top, level) < kTenth;
          if (strays(ring, {}, {1, 0, 0}) < kTenth) {
            on_left.push_back(ring);
          } else if (strays(ring, {roof.width, 0, 0}, {1, 0, 0}) < kTenth) {
            on_right.push_back(ring);
          } else if (!cover && !upstand) {
            for (const Vec3& p : ring)
              EXPECT_GT(dot(p - top, level), -kTenth) << job;  // turned into the wall
          }
          for (const Vec3& p : ring) {
            EXPECT_GT(p.x, -kTenth) << job;
            EXPECT_LT(p.x, roof.width + kTenth) << job;
          }
        }
        for (const std::vector<Ring>* side : {&on_left, &on_right}) {
          if (side->empty()) continue;
          ASSERT_EQ(side->size(), 2U) << job;
          EXPECT_EQ(edges_that_meet(side->front(), side->back()), welded ? 1U : 0U) << job;
          // As high as an upstand has to be (trade guides), square to the slope.
          double high = 0;
          for (const Vec3& p : side->front()) high = std::max(high, p.z - roof.units);
          for (const Vec3& p : side->back()) high = std::max(high, p.z - roof.units);
          EXPECT_GE(high, 75 - kTenth) << job;
          ++turned;
        }
        at_left += on_left.size();
        at_right += on_right.size();
      }
    }
    EXPECT_EQ(at_left, roof.left ? 2U : 0U) << job;
    EXPECT_EQ(at_right, roof.right ? 2U : 0U) << job;
  }
  EXPECT_GT(turned, static_cast<std::size_t>(kRoofs));
}

// The apron goes in when all courses lie and before the walls' flashings, which go over its ends.
TEST(LeanTo, apron_goes_in_before_the_flashings_beside_it) {
  const auto planned = sample::plan_job(sample::file_bytes("tests/jobs/cases/lean-to.json"));
  ASSERT_TRUE(planned);
  std::size_t last_course = 0;
  std::size_t last_apron = 0;
  std::size_t first_flashing = 0;
  std::size_t ends = 0;
  const auto& steps = planned->plan.order_of_work;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i].step.starts_with("work.course")) last_course = i;
    if (steps[i].step.starts_with("work.apron")) last_apron = i;
    ends += steps[i].step == "work.apron_end_bossed";
    const bool flashing =
        steps[i].step.starts_with("work.step_flashing") || steps[i].step.starts_with("work.cover_flashing");
    if (flashing && first_flashing == 0) first_flashing = i;
  }
  EXPECT_EQ(ends, 2U);
  EXPECT_LT(last_course, last_apron);
  EXPECT_LT(last_apron, first_flashing);
  EXPECT_NE(sample::finding(planned->plan, "apron.meets_a_wall"), nullptr);
}

TEST(LeanTo, a_wall_that_stops_short_makes_no_corner) {
  const auto says = [](double to) {
    LeanTo roof;
    roof.right = false;
    roof.left_to = to;
    const auto planned = sample::plan_job(roof.job());
    EXPECT_TRUE(planned);
    return planned && sample::finding(planned->plan, "apron.meets_a_wall") != nullptr;
  };
  EXPECT_TRUE(says(2400));
  EXPECT_TRUE(says(2397));  // as near as a hand cuts
  EXPECT_FALSE(says(2396));
}

// Of the half turn of a flat sheet round the corner the wall has room for 90 + pitch: at 40 the strip's two
// parts have 65 each, and either seam is 75 / sin 65 long.
TEST(LeanTo, seam_of_a_welded_corner) {
  LeanTo roof;
  roof.pitch = 40;
  roof.width = 1200;
  roof.corners = "welded";
  const auto planned = sample::plan_job(roof.job());
  ASSERT_TRUE(planned);
  const auto aprons = sample::pieces_of(planned->plan, "apron");
  ASSERT_EQ(aprons.size(), 1U);
  EXPECT_NEAR(sample::figure_value(aprons[0]->figures, "seam"), 75 / std::sin(65 * std::acos(-1.0) / 180),
              1e-9);
  EXPECT_NEAR(aprons[0]->length.in_mm(), 1200 + 2 * 75, 1e-9);
  EXPECT_NE(sample::finding(planned->plan, "corner.welded"), nullptr);
}

}  // namespace
}  // namespace lapwright
