// The front and the back of a stack and the wall at the top of a slope, against the trade's numbers and,
// folded, against planes made here from the pitch alone.
#include "planned.h"
#include "planning.h"

#include <lapwright/base/generator.h>
#include <lapwright/geom/net.h>

#include <gtest/gtest.h>

#include <cmath>
#include <set>
#include <string>
#include <vector>

namespace lapwright {
namespace {

using geom::Vec3;
using sample::figure_value;
using sample::pieces_of;

job::Plan plan_file(const std::string& name) {
  auto planned = engine::plan_job(sample::file_bytes("tests/jobs/cases/" + name));
  EXPECT_TRUE(planned) << name;
  return planned ? std::move(planned->plan) : job::Plan{};
}

// Plain tile at gauge 100, headlap 65, no short top course: the leg of an apron is G + H = 165, its blank
// 165 + 75 + 25 = 265, the next roll 270 (trade guides; sides and turn-in common practice).
TEST(Chimney, top_apron_covers_the_last_margin_and_lap) {
  const job::Plan plan = plan_file("a20-top-abutment.json");
  const auto aprons = pieces_of(plan, "apron");
  ASSERT_EQ(aprons.size(), 1U);
  EXPECT_DOUBLE_EQ(figure_value(aprons[0]->figures, "cover"), 165);
  EXPECT_DOUBLE_EQ(figure_value(aprons[0]->figures, "girth"), 265);
  EXPECT_EQ(aprons[0]->width, Length::mm(270));
  // Pieces less laps make up the wall, none longer than 1500 (NHBC Standards 7.2.20).
  EXPECT_LE(aprons[0]->length, Length::mm(1500));
  EXPECT_NEAR((aprons[0]->length * 4 - Length::mm(300)).in_mm(), 5200, 1e-6);
}

// A stack 2950 wide on slate: nothing in one piece of 3.4 m; pieces of 1500 at most along the front and over
// the gutter, and a gutter that falls both ways from a roll in the middle (two pieces over 2000: trade
// guides).
TEST(Chimney, wide_stack_is_made_in_pieces) {
  const job::Plan plan = plan_file("a17-wide-stack.json");
  std::int64_t aprons = 0;
  for (const job::Piece* piece : pieces_of(plan, "apron")) {
    aprons += piece->count;
    EXPECT_LE(piece->length, Length::mm(1500));
  }
  EXPECT_EQ(aprons, 3);
  for (const job::Piece* piece : pieces_of(plan, "cover-flashing"))
    EXPECT_LE(piece->length, Length::mm(1500));
  std::int64_t gutters = 0;
  for (const job::Piece* piece : pieces_of(plan, "back-gutter")) {
    gutters += piece->count;
    EXPECT_LE(piece->length, Length::mm(2000));
    EXPECT_EQ(piece->code, 5);
    EXPECT_NEAR(figure_value(piece->figures, "rise"), (2950.0 / 2 + 100) / 80, 1e-9);
  }
  EXPECT_EQ(gutters, 2);
}

// 150 + 100 + 225 = 475: next stocked 480 (geometry; the three from memory).
TEST(Chimney, back_gutter_girth) {
  const job::Plan plan = plan_file("stack-bossed.json");
  const auto gutters = pieces_of(plan, "back-gutter");
  ASSERT_EQ(gutters.size(), 1U);
  EXPECT_DOUBLE_EQ(figure_value(gutters[0]->figures, "girth"), 475);
  EXPECT_EQ(gutters[0]->width, Length::mm(480));
}

TEST(Chimney, places_that_leave_no_room_are_said) {
  EXPECT_NE(sample::finding(plan_file("stack-at-eaves.json"), "stack.at_the_eaves"), nullptr);
  EXPECT_NE(sample::finding(plan_file("stack-near-ridge.json"), "stack.near_the_ridge"), nullptr);
  EXPECT_EQ(sample::finding(plan_file("stack-bossed.json"), "stack.at_the_eaves"), nullptr);
  EXPECT_EQ(sample::finding(plan_file("stack-bossed.json"), "stack.near_the_ridge"), nullptr);
}

// Through the ridge: two aprons, four side runs, two saddles, no back gutter (trade guides), also where the
// slopes differ; each saddle's two legs lie on the two slopes' finished faces.
TEST(Chimney, stack_across_the_ridge_has_saddles_and_no_gutter) {
  for (const std::string file : {"a18-ridge-stack.json", "a18-ridge-stack-unequal.json"}) {
    const job::Plan plan = plan_file(file);
    std::int64_t aprons = 0;
    for (const job::Piece* piece : pieces_of(plan, "apron")) aprons += piece->count;
    EXPECT_EQ(aprons, 2) << file;
    EXPECT_EQ(pieces_of(plan, "back-gutter").size(), 0U);
    std::set<std::string> runs;
    for (const job::Piece* piece : pieces_of(plan, "step-flashing")) runs.insert(piece->slope + piece->face);
    EXPECT_EQ(runs.size(), 4U) << file;
    std::int64_t saddles = 0;
    for (const job::Piece* piece : pieces_of(plan, "saddle")) {
      saddles += piece->count;
      EXPECT_EQ(geom::fault_of(piece->net), std::nullopt);
      EXPECT_GE(figure_value(piece->figures, "along"), 150);
    }
    EXPECT_EQ(saddles, 2) << file;
  }
}

// Every panel's middle, in the slope's frame.
std::vector<std::pair<Vec3, Vec3>> panels_of(const job::Piece& piece) {
  std::vector<std::pair<Vec3, Vec3>> out;  // a point and the outward normal
  const auto panels = geom::split_into_panels(piece.net, piece.base_point);
  EXPECT_TRUE(panels) << piece.kind;
  if (!panels) return out;
  for (const job::Placement& placement : piece.placements) {
    const auto frames = geom::fold_panels(piece.net, *panels, placement.frame);
    for (std::size_t i = 0; i < frames.size(); ++i) {
      const geom::GridPoint p = (*panels)[i].ring.front();
      out.emplace_back(frames[i].at(static_cast<double>(p.x) / 1000, static_cast<double>(p.y) / 1000),
                       frames[i].normal());
    }
  }
  return out;
}

// A plane that a panel may lie on: through a point, with a normal.
struct Named {
  std::string name;
  Vec3 point;
  Vec3 normal;
};

// A panel lies on a plane when a point of it does and the normals agree, either way round.
std::string plane_of(const std::pair<Vec3, Vec3>& panel, const std::vector<Named>& planes) {
  for (const Named& plane : planes) {
    const double off = std::fabs(dot(panel.first - plane.point, plane.normal));
    const double turned = 1 - std::fabs(dot(panel.second, plane.normal));
    if (off < 0.1 && turned < 1e-9) return plane.name;
  }
  return {};
}

TEST(Chimney, folded_panels_lie_where_they_should) {
  Generator random(20261125);
  std::size_t judged = 0;
  for (int i = 0; i < 2000 && !HasFailure(); ++i) {
    const double pitch = 35 + 0.5 * static_cast<double>(random.between(0, 49));
    const double front = 400 + static_cast<double>(random.between(0, 1499));
    const double width = 300 + static_cast<double>(random.between(0, 2999));
    const double depth = 300 + static_cast<double>(random.between(0, 899));
    const double at = 3000;
    const std::string job =
        R"({ "format": "lapwright-job/1", "slopes": [ { "pitch": )" + std::to_string(pitch) +
        R"(, "rafter": 6000, "width": 6000, "covering": { "kind": "plain-tile", "length": 265, "width": 165, "thickness": 12 }, "junctions": [ { "kind": "stack", "at": 3000, "front": )" +
        std::to_string(front) + R"(, "width": )" + std::to_string(width) + R"(, "depth": )" +
        std::to_string(depth) + " } ] } ] }";
    const auto planned = engine::plan_job(job);
    ASSERT_TRUE(planned) << job;
    const double t = pitch * std::acos(-1.0) / 180;
    const Vec3 upright{0, std::sin(t), std::cos(t)};
    const Vec3 level{0, std::cos(t), -std::sin(t)};  // level, towards the ridge
    const double back = front + depth / std::cos(t);
    const double sole_edge = back + 150 / std::cos(t);
    const std::vector<Named> planes{{"units", {0, 0, 12}, {0, 0, 1}},
                                    {"roof", {0, 0, 0}, {0, 0, 1}},
                                    {"front", {0, front, 0}, level},
                                    {"back", {0, back, 0}, level},
                                    {"left", {at - width / 2, 0, 0}, {1, 0, 0}},
                                    {"right", {at + width / 2, 0, 0}, {1, 0, 0}},
                                    {"sole", {0, sole_edge, 0}, upright}};
    for (const job::Piece& piece : planned->plan.pieces) {
      EXPECT_EQ(geom::fault_of(piece.net), std::nullopt) << job;
      if (piece.kind != "apron" && piece.kind != "back-gutter") continue;
      std::size_t strange = 0;
      for (const auto& panel : panels_of(piece)) {
        if (plane_of(panel, planes).empty()) strange += 1;
        judged += 1;
      }
      // Turn-ins lie level in their joint and a gutter's ears come down on the units: on no plane of the
      // list.
      const std::size_t placed = piece.placements.size();
      EXPECT_LE(strange, piece.kind == "apron" ? placed : 2 * placed) << piece.kind << ": " << job;
    }
  }
  EXPECT_GT(judged, 10'000U);
}

// A stack's rows: nothing of the covering lies inside it, and beside it the perps stay where they were.
TEST(Chimney, units_stop_at_the_stack) {
  const job::Plan plan = plan_file("stack-bossed.json");
  const double cosine = std::cos(40 * std::acos(-1.0) / 180);
  const double left = 2600 - 332.5;
  const double right = 2600 + 332.5;
  const double front = 1500;
  const double back = 1500 + 440 / cosine;
  std::size_t units = 0;
  std::size_t parted = 0;
  for (const job::Row& row : plan.rows) {
    double u = row.from.in_mm();
    for (const job::UnitRun& run : row.widths) {
      for (std::int64_t i = 0; i < run.count; ++i) {
        const double end = u + run.width.in_mm();
        const double tail = row.tail.in_mm();
        const double head = (row.tail + row.length).in_mm();
        EXPECT_GT(end, u);
        EXPECT_GT(head, tail);
        const bool inside =
            u < right - 1e-6 && end > left + 1e-6 && tail < back - 1e-6 && head > front + 1e-6;
        EXPECT_FALSE(inside) << "course " << row.course << ", " << u << " to " << end;
        u = end + row.gap.in_mm();
        units += 1;
      }
    }
    if (row.from.in_mm() > 100) parted += 1;
  }
  EXPECT_GT(units, 1000U);
  EXPECT_GT(parted, 4U);
}

}  // namespace
}  // namespace lapwright
