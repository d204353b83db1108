// The front and the back of a stack and the wall at the top of a slope, against the trade's numbers and,
// folded, against planes made here from the pitch alone.
#include "planned.h"
#include "planner.h"
#include "planning.h"

#include <lapwright/base/generator.h>
#include <lapwright/geom/net.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace lapwright {
namespace {

using geom::Vec3;
using sample::figure_value;
using sample::pieces_of;

job::Plan plan_file(const std::string& name) {
  auto planned = sample::plan_job(sample::file_bytes("tests/jobs/cases/" + name));
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

// In severe exposure the apron's free edge is clipped every 300, elsewhere every 500 (trade guides).
TEST(Chimney, apron_is_clipped_closer_in_severe_exposure) {
  const auto spacing = [](const std::string& file) {
    const job::Plan plan = plan_file(file);
    for (const job::WorkStep& work : plan.order_of_work) {
      if (work.step != "work.apron_front") continue;
      for (const job::Param& param : work.params) {
        if (param.name == "clips") return std::get<double>(param.value);
      }
    }
    return 0.0;
  };
  EXPECT_DOUBLE_EQ(spacing("stack-severe.json"), 300);
  EXPECT_DOUBLE_EQ(spacing("stack-welded.json"), 500);
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
  EXPECT_EQ(gutters[0]->width,
            Length::mm(510));  // the bossed ears come down further than the upstand is high
  const job::Plan welded = plan_file("stack-welded.json");
  EXPECT_EQ(pieces_of(welded, "back-gutter").front()->width, Length::mm(480));
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

constexpr double kTenth = 0.1;  // mm: a folded panel against its plane

// A panel where it lies: its corners in the slope's frame.
struct Lying {
  std::vector<Vec3> points;
  Vec3 normal;
};

std::vector<Lying> panels_of(const job::Piece& piece) {
  std::vector<Lying> out;
  const auto panels = geom::split_into_panels(piece.net, piece.base_point);
  EXPECT_TRUE(panels) << piece.kind;
  if (!panels) return out;
  for (const job::Placement& placement : piece.placements) {
    const auto frames = geom::fold_panels(piece.net, *panels, placement.frame);
    for (std::size_t i = 0; i < frames.size(); ++i) {
      Lying panel;
      for (const geom::GridPoint p : (*panels)[i].ring)
        panel.points.push_back(
            frames[i].at(static_cast<double>(p.x) / 1000, static_cast<double>(p.y) / 1000));
      panel.normal = frames[i].normal();
      out.push_back(std::move(panel));
    }
  }
  return out;
}

// A plane that a panel may lie on: through a point, with a unit normal.
struct Named {
  std::string name;
  Vec3 point;
  Vec3 normal;
};

std::string plane_of(const Lying& panel, const std::vector<Named>& planes) {
  for (const Named& plane : planes) {
    double off = 0;
    for (const Vec3& p : panel.points) off = std::max(off, std::fabs(dot(p - plane.point, plane.normal)));
    if (off < kTenth) return plane.name;
  }
  return {};
}

double lowest(const Lying& panel) {
  double low = 1e9;
  for (const Vec3& p : panel.points) low = std::min(low, p.z);
  return low;
}

bool same_place(Vec3 a, Vec3 b) {
  return length_of(a - b) < kTenth;
}

// How many edges of `corner` are also edges of `other`, both ends in the same places.
std::size_t shared_edges(const job::Piece& corner, const std::vector<const job::Piece*>& others) {
  std::vector<std::pair<Vec3, Vec3>> edges;
  for (const job::Piece* other : others) {
    for (const Lying& panel : panels_of(*other)) {
      for (std::size_t i = 0; i < panel.points.size(); ++i)
        edges.emplace_back(panel.points[i], panel.points[(i + 1) % panel.points.size()]);
    }
  }
  std::size_t shared = 0;
  for (const Lying& panel : panels_of(corner)) {
    for (std::size_t i = 0; i < panel.points.size(); ++i) {
      const Vec3 a = panel.points[i];
      const Vec3 b = panel.points[(i + 1) % panel.points.size()];
      shared += std::any_of(edges.begin(), edges.end(), [&](const auto& e) {
        return (same_place(e.first, a) && same_place(e.second, b)) ||
               (same_place(e.first, b) && same_place(e.second, a));
      });
    }
  }
  return shared;
}

std::string stack_job(double pitch, double thickness, double at, double front, double width, double depth,
                      const std::string& corners) {
  return R"({ "format": "lapwright-job/1", "slopes": [ { "pitch": )" + std::to_string(pitch) +
         R"(, "rafter": 6000, "width": 6000, "covering": { "kind": "plain-tile", "length": 265, "width": 165, "thickness": )" +
         std::to_string(thickness) + R"( }, "junctions": [ { "kind": "stack", "at": )" + std::to_string(at) +
         R"(, "front": )" + std::to_string(front) + R"(, "width": )" + std::to_string(width) +
         R"(, "depth": )" + std::to_string(depth) + R"(, "corners": ")" + corners + R"(" } ] } ] })";
}

// Every panel lies on the roof, the units, the masonry or the level sole; turn-ins lie level inside the
// masonry, and what comes down beside the stack ends on the units. Welded corners meet their neighbours along
// two seams.
TEST(Chimney, folded_panels_lie_where_they_should) {
  Generator random(20261125);
#ifdef __SANITIZE_ADDRESS__
  constexpr int kStacks = 2'000;
#else
  constexpr int kStacks = 10'000;
#endif
  std::size_t judged = 0;
  std::size_t corners_seen = 0;
  std::size_t spills_seen = 0;
  for (int i = 0; i < kStacks && !HasFailure(); ++i) {
    const double pitch = 35 + 0.5 * static_cast<double>(random.between(0, 59));
    const double units = 8 + static_cast<double>(random.between(0, 12));
    const double front = 400 + static_cast<double>(random.between(0, 1499));
    const double width = 300 + static_cast<double>(random.between(0, 2999));
    const double depth = 300 + static_cast<double>(random.between(0, 599));
    const double at = 3000;
    const bool welded = random.between(0, 1) == 1;
    const std::string job = stack_job(pitch, units, at, front, width, depth, welded ? "welded" : "bossed");
    const auto planned = sample::plan_job(job);
    ASSERT_TRUE(planned) << job;
    const double t = pitch * std::acos(-1.0) / 180;
    const Vec3 upright{0, std::sin(t), std::cos(t)};
    const Vec3 level{0, std::cos(t), -std::sin(t)};  // level, towards the ridge
    const double back = front + depth / std::cos(t);
    const double sole_edge = back + 150 / std::cos(t);
    const std::vector<Named> planes{{"units", {0, 0, units}, {0, 0, 1}},
                                    {"roof", {0, 0, 0}, {0, 0, 1}},
                                    {"front", {0, front, 0}, level},
                                    {"back", {0, back, 0}, level},
                                    {"left", {at - width / 2, 0, 0}, {1, 0, 0}},
                                    {"right", {at + width / 2, 0, 0}, {1, 0, 0}},
                                    {"sole", {0, sole_edge, 0}, upright}};
    const auto in_masonry = [&](const Lying& panel) {
      return std::all_of(panel.points.begin(), panel.points.end(), [&](Vec3 p) {
        const double behind_front = dot(p - Vec3{0, front, 0}, level);
        return behind_front > -kTenth && behind_front < depth + kTenth && p.x > at - width / 2 - kTenth &&
               p.x < at + width / 2 + kTenth;
      });
    };
    std::size_t corners = 0;
    for (const job::Piece& piece : planned->plan.pieces) {
      EXPECT_EQ(geom::fault_of(piece.net), std::nullopt) << job;
      const bool ours = piece.kind == "apron" || piece.kind == "back-gutter" || piece.kind == "corner" ||
                        piece.kind == "cover-flashing";
      if (!ours) continue;
      for (const Lying& panel : panels_of(piece)) {
        judged += 1;
        if (!plane_of(panel, planes).empty()) continue;
        const bool level_panel = std::fabs(std::fabs(dot(panel.normal, upright)) - 1) < 1e-9;
        if (level_panel && in_masonry(panel)) continue;
        const bool beside = std::all_of(panel.points.begin(), panel.points.end(),
                                        [&](Vec3 p) { return std::fabs(p.x - at) > width / 2 - kTenth; });
        EXPECT_TRUE(beside) << piece.kind << ": " << job;
        EXPECT_NEAR(lowest(panel), units, kTenth) << piece.kind << ": " << job;
        spills_seen += 1;
      }
      if (piece.kind == "corner") {
        corners += 1;
        const auto others = pieces_of(planned->plan, piece.face == "front" ? "apron" : "back-gutter");
        EXPECT_EQ(shared_edges(piece, others), 2U) << piece.face << ": " << job;
      }
    }
    EXPECT_EQ(corners, welded ? 4U : 0U) << job;
    corners_seen += corners;
  }
  EXPECT_GT(judged, 20'000U);
  EXPECT_GT(corners_seen, 3'000U);
  EXPECT_GT(spills_seen, 3'000U);
}

// A stack as far from one side as from the other has the same pieces, drawn the other way round.
TEST(Chimney, mirrored_stack_gives_mirrored_pieces) {
  for (const std::string corners : {"bossed", "welded"}) {
    const auto one = sample::plan_job(stack_job(42, 12, 2000, 1500, 2000, 450, corners));
    const auto other = sample::plan_job(stack_job(42, 12, 4000, 1500, 2000, 450, corners));
    ASSERT_TRUE(one && other);
    std::size_t compared = 0;
    for (const job::Piece& piece : one->plan.pieces) {
      if (piece.kind != "apron" && piece.kind != "back-gutter" && piece.kind != "corner") continue;
      const bool found =
          std::any_of(other->plan.pieces.begin(), other->plan.pieces.end(), [&](const job::Piece& p) {
            return p.kind == piece.kind && p.face == piece.face &&
                   geom::same_net(geom::at_origin(geom::mirrored(p.net)), piece.net);
          });
      EXPECT_TRUE(found) << piece.mark << " " << piece.kind;
      compared += 1;
    }
    EXPECT_EQ(compared, corners == std::string("welded") ? 8U : 4U);
  }
}

// Above a wall at a skew the sole lies level square to the wall on plan, falls along it with the wall's foot,
// and ends on the roof; the lead has no ears, for there is no stack to turn round.
TEST(Chimney, gutter_above_a_skew_wall_follows_it) {
  const job::Plan plan = plan_file("skew-gutter.json");
  const auto gutters = pieces_of(plan, "back-gutter");
  ASSERT_FALSE(gutters.empty());
  const double t = 40 * std::acos(-1.0) / 180;
  const Vec3 upright{0, std::sin(t), std::cos(t)};
  const Vec3 along = unit(Vec3{2000, 600, 0});
  const Vec3 level = unit(cross(along, upright));  // square to the wall, level
  const Vec3 foot{1500, 1400, 0};
  const Vec3 roof_way = unit(cross(along, Vec3{0, 0, 1}));
  EXPECT_NEAR(dot(level, upright), 0, 1e-12);
  // The sole's plane holds the foot's direction and the level one, 150 of sole behind the wall.
  const double far = 150 / std::fabs(dot(roof_way, level));
  const Vec3 up_roof = roof_way.y > 0 ? roof_way : -1.0 * roof_way;
  const Vec3 out = dot(level, up_roof) > 0 ? level : -1.0 * level;
  const Vec3 sole_normal = unit(cross(along, out));
  const std::vector<Named> planes{
      {"roof", {0, 0, 0}, {0, 0, 1}}, {"wall", foot, out}, {"sole", foot + far * up_roof, sole_normal}};
  std::set<std::string> seen;
  for (const job::Piece* piece : gutters) {
    for (const Lying& panel : panels_of(*piece)) {
      const std::string name = plane_of(panel, planes);
      EXPECT_FALSE(name.empty());
      seen.insert(name);
      for (const Vec3& p : panel.points) {
        EXPECT_GT(dot(p - foot, along), -kTenth);
        EXPECT_LT(dot(p - foot, along), std::sqrt(2000.0 * 2000 + 600.0 * 600) + kTenth);
      }
    }
  }
  EXPECT_EQ(seen.size(), 3U);
}

// The gutter's cover turns into the first joint that clears the gutter's upstand: 30 above the roof at the
// front and every 75 (survey); behind, the roof has climbed 440·tan 40 and the sole stands on it.
TEST(Chimney, gutter_cover_turns_into_a_joint) {
  const job::Plan plan = plan_file("stack-bossed.json");
  const double t = 40 * std::acos(-1.0) / 180;
  const Vec3 upright{0, std::sin(t), std::cos(t)};
  const Vec3 front{0, 1500, 0};
  bool seen = false;
  for (const job::Piece* piece : pieces_of(plan, "cover-flashing")) {
    if (piece->face != "back") continue;
    seen = true;
    double top = 0;
    double foot = 1e9;
    for (const Lying& panel : panels_of(*piece)) {
      for (const Vec3& p : panel.points) {
        const double height = dot(p - front, upright) - 12 / std::cos(t);
        top = std::max(top, height);
        foot = std::min(foot, height);
      }
    }
    const double upstand = 440 * std::tan(t) + 150 * std::tan(t) + 100 - 12 / std::cos(t);
    EXPECT_NEAR(upstand - foot, 75, kTenth);
    EXPECT_GE(top, upstand - kTenth);
    EXPECT_LT(top, upstand + 75);
    EXPECT_NEAR(std::remainder(top - 30, 75), 0, kTenth);
  }
  EXPECT_TRUE(seen);
}

// Welded saddles: the two upstands stand apart by both pitches, and the gusset fills that gap edge to edge.
TEST(Chimney, gusset_closes_a_welded_saddle) {
  const job::Plan plan = plan_file("ridge-stack-welded.json");
  std::size_t gussets = 0;
  for (const job::Piece& piece : plan.pieces) {
    if (piece.kind != "corner" || sample::figure(piece.figures, "apex") == nullptr) continue;
    gussets += 1;
    EXPECT_EQ(shared_edges(piece, pieces_of(plan, "saddle")), 2U * piece.placements.size());
  }
  EXPECT_GE(gussets, 1U);
}

// Largest flat bays (from memory): a gutter whose sheet is larger than its code allows takes the next.
TEST(Chimney, gutter_takes_the_code_that_its_bay_asks_for) {
  const auto code_of = [](double width) {
    const auto planned = sample::plan_job(stack_job(42, 12, 3000, 1500, width, 450, "welded"));
    EXPECT_TRUE(planned);
    return pieces_of(planned->plan, "back-gutter").front()->code;
  };
  EXPECT_EQ(code_of(1300), 4);  // 1300 + 2 × 100 = 1500
  EXPECT_EQ(code_of(1301), 5);
}

// A core of 45, half round on top: right round it 45 · (1 + π / 2), and 40 on the sole beyond (from memory).
// Flat, either piece of a gutter 2950 + 2 · 100 wide goes that much less half the core past the middle.
TEST(Chimney, pieces_of_a_wide_gutter_go_over_their_roll) {
  const job::Plan plan = plan_file("a17-wide-stack.json");
  const double round = 45 * (1 + std::acos(0.0)) + 40;
  for (const job::Piece* piece : pieces_of(plan, "back-gutter")) {
    EXPECT_NEAR(figure_value(piece->figures, "roll_over"), round, 1e-9);
    EXPECT_NEAR(piece->length.in_mm(), 3150.0 / 2 + round - 22.5, 1e-6);
    EXPECT_EQ(figure_value(piece->figures, "roll_under"), 75);
  }
  bool core = false;
  for (const job::WorkStep& step : plan.order_of_work) {
    core = core || step.text.find("a roll of timber 45 mm by 45 mm and 375 mm long") != std::string::npos;
  }
  EXPECT_TRUE(core);
}

// Wider than two pieces serve: the falls part at a roll in the middle, and every other joint is a drip, where
// neighbours share 100 (from memory).
TEST(Chimney, a_gutter_of_four_pieces_has_one_roll_and_two_drips) {
  const auto planned = sample::plan_job(stack_job(42, 12, 3000, 1500, 4200, 450, "bossed"));
  ASSERT_TRUE(planned);
  std::vector<std::pair<double, double>> along;
  for (const job::Piece* piece : pieces_of(planned->plan, "back-gutter")) {
    EXPECT_LE(piece->length.in_mm(), 2000 + 1e-6);  // trade guides
    const std::vector<Lying> panels = panels_of(*piece);
    const std::size_t each = panels.size() / piece->placements.size();
    for (std::size_t k = 0; k < panels.size(); ++k) {
      if (k % each == 0) along.emplace_back(1e9, -1e9);
      for (const Vec3& p : panels[k].points) {
        along.back().first = std::min(along.back().first, p.x);
        along.back().second = std::max(along.back().second, p.x);
      }
    }
  }
  std::sort(along.begin(), along.end());
  ASSERT_EQ(along.size(), 4U);
  const double beyond = 45 * (1 + std::acos(0.0)) + 40 - 22.5;
  EXPECT_NEAR(along[0].first, 3000 - 2200, kTenth);
  EXPECT_NEAR(along[0].second - along[1].first, 100, kTenth);
  EXPECT_NEAR(along[1].second - along[2].first, 2 * beyond, kTenth);
  EXPECT_NEAR(along[2].second - along[3].first, 100, kTenth);
  EXPECT_NEAR(along[3].second, 3000 + 2200, kTenth);
  std::map<std::string, int> steps;
  for (const job::WorkStep& step : planned->plan.order_of_work) ++steps[step.step];
  EXPECT_EQ(steps["work.back_gutter_next"], 1);
  EXPECT_EQ(steps["work.back_gutter_drip"], 2);
}

// A sole that rises by (width / 2 + 100) / fall meets the roof rise / sin(pitch) further up: of 225 of leg
// 150 (the least lap down a slope, lead trade body's manual) must be left.
TEST(Chimney, a_gutter_too_wide_for_its_fall_is_said) {
  const auto plan_of = [](double width, const std::string& practice) {
    std::string job = stack_job(42, 12, 3000, 1500, width, 450, "bossed");
    job.insert(job.find("\"slopes\""), practice);
    auto planned = sample::plan_job(job);
    EXPECT_TRUE(planned) << job;
    return planned ? std::move(planned->plan) : job::Plan{};
  };
  const std::string steep = R"("practice": { "back_gutter.fall": 20 }, )";
  const double sine = std::sin(42 * std::acos(-1.0) / 180);
  const auto limit = [&](double width) {
    return plan_of(width, R"("practice": { "back_gutter.fall": 30 }, )");
  };
  const double widest_at_30 = 2 * (75 * sine * 30 - 100);
  EXPECT_EQ(sample::finding(limit(widest_at_30 - 1), "back_gutter.middle_too_high"), nullptr);
  const job::Plan over = limit(widest_at_30 + 1);
  const job::Finding* said = sample::finding(over, "back_gutter.middle_too_high");
  ASSERT_NE(said, nullptr);
  EXPECT_EQ(said->level, job::Level::doubt);
  EXPECT_NEAR(sample::param(said, "widest"), widest_at_30, 1e-6);
  const job::Plan none = plan_of(4000, steep);
  said = sample::finding(none, "back_gutter.middle_too_high");
  ASSERT_NE(said, nullptr);
  EXPECT_LT(sample::param(said, "left"), 150);
}

// Above a wall that is all but level the upper end has to be raised: run / fall less what the wall's foot
// falls by itself; that is buildable as far as 75 of the leg serve it.
TEST(Chimney, a_skew_gutter_says_how_far_it_can_be_built) {
  const auto plan_of = [](double run) {
    const std::string job =
        R"({ "format": "lapwright-job/1", "practice": { "back_gutter.fall": 30 }, "slopes": [ { "pitch": 40,
             "rafter": 6000, "width": 9000,
             "covering": { "kind": "plain-tile", "length": 265, "width": 165, "thickness": 12 },
             "junctions": [ { "kind": "wall", "line": [[)" +
        std::to_string(500 + run) + ", " + std::to_string(1500 + run * 0.012) +
        R"(], [500, 1500]] } ] } ] })";
    auto planned = sample::plan_job(job);
    EXPECT_TRUE(planned) << job;
    return planned ? std::move(planned->plan) : job::Plan{};
  };
  const double t = 40 * std::acos(-1.0) / 180;
  const job::Plan plan = plan_of(6000);
  const job::Finding* little = sample::finding(plan, "back_gutter.little_fall");
  ASSERT_NE(little, nullptr);
  // On plan the wall is 6000 by 72 · cos 40 long; its foot drops 72 · sin 40.
  const double run = std::hypot(6000, 72 * std::cos(t));
  const double raised = run / 30 - 72 * std::sin(t);
  EXPECT_NEAR(sample::param(little, "raised"), raised, 1e-6);
  const job::Finding* said = sample::finding(plan, "back_gutter.widens_past_its_leg");
  ASSERT_NE(said, nullptr);
  const double stops = sample::param(said, "stops");
  EXPECT_GT(stops, 0);
  EXPECT_LT(stops, run);
  // As far as that, and no further.
  EXPECT_EQ(sample::finding(plan_of(stops * 6000 / run - 2), "back_gutter.widens_past_its_leg"), nullptr);
  EXPECT_NE(sample::finding(plan_of(stops * 6000 / run + 2), "back_gutter.widens_past_its_leg"), nullptr);
}

TEST(Chimney, place_of_the_stack_is_judged) {
  const auto findings = [](double at, double front) {
    auto planned = sample::plan_job(stack_job(42, 12, at, front, 600, 450, "bossed"));
    EXPECT_TRUE(planned);
    return planned ? std::move(planned->plan) : job::Plan{};
  };
  EXPECT_EQ(sample::finding(findings(400, 1500), "stack.near_the_side"), nullptr);
  EXPECT_NE(sample::finding(findings(399, 1500), "stack.near_the_side"), nullptr);
  EXPECT_NE(sample::finding(findings(299, 1500), "stack.beyond_the_side"), nullptr);
  EXPECT_NE(sample::finding(findings(5701, 1500), "stack.beyond_the_side"), nullptr);
  EXPECT_EQ(sample::finding(findings(3000, 1500), "stack.front_between_courses"), nullptr);
  EXPECT_EQ(sample::param(sample::finding(findings(3000, 1540), "stack.front_between_courses"), "below"), 40);
  // 1540 lies in course 16, 40 above its tails at 1500: G + H = 165 of lead on those 40 and 125 of course 15.
  const job::Plan off = findings(3000, 1540);
  const job::Finding* front = sample::finding(off, "stack.front_between_courses");
  ASSERT_NE(front, nullptr);
  EXPECT_EQ(sample::param(front, "number"), 16);
  EXPECT_NEAR(sample::param(front, "leg"), 165, 1e-9);
  EXPECT_NEAR(sample::param(front, "rest"), 125, 1e-9);
  EXPECT_NE(front->where.find("front"), std::string::npos);
  // Left out, the strip adds to what the leg has to cover: 40 + 100 + 65.
  EXPECT_NEAR(sample::param(sample::finding(off, "stack.short_units_in_front"), "longer"), 205, 1e-9);
  EXPECT_NE(sample::finding(findings(3000, 1559), "stack.short_units_in_front"), nullptr);
  EXPECT_EQ(sample::finding(findings(3000, 1560), "stack.short_units_in_front"), nullptr);
  EXPECT_NE(sample::finding(findings(3000, 1560), "stack.front_between_courses"), nullptr);
  EXPECT_EQ(sample::finding(findings(3000, 1503), "stack.front_between_courses"), nullptr);
  // Rise of a tray across a stack 450 deep (trade guides, geometry).
  EXPECT_NEAR(sample::param(sample::finding(findings(3000, 1500), "stack.tray"), "rise"),
              450 * std::tan(42 * std::acos(-1.0) / 180), 1e-9);
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
