// Situations that roofers met, each a job file in tests/jobs/cases, and what a right answer holds. Numbers
// are arithmetic on the rule pack's values unless a source is named beside them.
#include "planned.h"
#include "planner.h"
#include "planning.h"

#include <lapwright/engine/engine.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace lapwright {
namespace {

using job::Level;
using sample::figure_value;
using sample::finding;
using sample::param;
using sample::pieces_of;
using sample::word;

constexpr double kMm = 0.5;      // "to the millimetre"
constexpr double kExact = 1e-6;  // worked out on paper
constexpr double kInch = 25.4;

struct Case {
  std::string bytes;
  job::Plan plan;
  job::Survey survey;
};

// Plans the case and holds the command's exit status to what is expected.
Case planned(const std::string& name, engine::Status status) {
  Case out;
  out.bytes = sample::file_bytes("tests/jobs/cases/" + name + ".json");
  EXPECT_FALSE(out.bytes.empty()) << name;
  const engine::Outcome outcome = engine::plan({out.bytes});
  EXPECT_EQ(outcome.status, status) << name << (outcome.faults.empty() ? "" : ": " + outcome.faults.front());
  auto whole = sample::plan_job(out.bytes);
  if (whole) {
    out.plan = std::move(whole->plan);
    out.survey = std::move(whole->survey);
  }
  return out;
}

std::vector<double> headlaps(const job::SetOut& set_out) {
  std::vector<double> out;
  for (const auto& a : set_out.headlaps) out.push_back(std::round(a.value));
  return out;
}

// The figure of the first soaker, which is the one that most courses take.
double soaker(const Case& c, const char* name) {
  const auto soakers = pieces_of(c.plan, "soaker");
  EXPECT_FALSE(soakers.empty());
  return soakers.empty() ? std::nan("") : figure_value(soakers.front()->figures, name);
}

// A1: the owner had been told 91, 86 and 84; the table that prints 100 at 25° gives 94 as well.
TEST(Cases, a01_every_table_shown_and_one_chosen) {
  const Case c = planned("a01-slate-at-26", engine::Status::done);
  ASSERT_EQ(c.plan.set_out.size(), 1U);
  const job::SetOut& out = c.plan.set_out[0];
  EXPECT_EQ(headlaps(out), (std::vector<double>{91, 94, 86, 84}));
  ASSERT_FALSE(out.headlaps.empty());
  EXPECT_TRUE(out.headlaps[0].chosen);
  for (std::size_t i = 1; i < out.headlaps.size(); ++i) EXPECT_FALSE(out.headlaps[i].chosen);
  for (const auto& a : out.headlaps) EXPECT_FALSE(a.source.empty());
  EXPECT_EQ(out.courses, 16);
  EXPECT_NEAR(out.gauge.in_mm(), 204.5, kExact);
  EXPECT_NEAR(out.headlap.in_mm(), 91, kExact);
  EXPECT_NEAR(soaker(c, "length"), 320.5, kExact);
  EXPECT_NEAR(figure_value(out.figures, "hole_gauge"), 305.5, kExact);
  EXPECT_EQ(finding(c.plan, "setout.gauge_shrunk"), nullptr);
  ASSERT_NE(finding(c.plan, "headlap.interpolated"), nullptr);
  EXPECT_NE(finding(c.plan, "headlap.interpolated")->text.find("91 mm"), std::string::npos);
}

TEST(Cases, a01_a_fixed_headlap_below_the_chosen_table_is_a_doubt) {
  const Case c = planned("a01-slate-at-26-fixed-84", engine::Status::done);
  const job::Finding* f = finding(c.plan, "headlap.below_chosen_table");
  ASSERT_NE(f, nullptr);
  EXPECT_EQ(f->level, Level::doubt);
  EXPECT_NEAR(param(f, "headlap"), 84, kExact);
  EXPECT_NEAR(param(f, "least"), 91, kExact);
  EXPECT_TRUE(c.plan.set_out[0].headlaps.back().chosen);
}

// Lists that no standard or trade body stands behind are shown but decide nothing: at 21° only such a list
// answers.
TEST(Cases, a01_a_list_seen_on_site_never_decides) {
  std::string bytes = sample::file_bytes("tests/jobs/cases/a01-slate-at-26.json");
  const std::size_t at = bytes.find("\"pitch\": 26");
  ASSERT_NE(at, std::string::npos);
  bytes.replace(at, 11, "\"pitch\": 21");
  const auto whole = sample::plan_job(bytes);
  ASSERT_TRUE(whole);
  EXPECT_TRUE(engine::has_wrong(whole->plan));
  const job::Finding* f = finding(whole->plan, "headlap.no_table");
  ASSERT_NE(f, nullptr);
  EXPECT_NE(word(f, "first").find("25°"), std::string::npos);
  EXPECT_TRUE(whole->plan.pieces.empty());
  for (const auto& a : whole->plan.set_out[0].headlaps) EXPECT_FALSE(a.chosen);
}

// A2: no table allows 400×250 at 20°.
TEST(Cases, a02_too_flat_for_the_size) {
  const Case c = planned("a02-slate-too-flat", engine::Status::wrong);
  const job::Finding* f = finding(c.plan, "headlap.no_table");
  ASSERT_NE(f, nullptr);
  EXPECT_EQ(f->level, Level::wrong);
  EXPECT_NE(word(f, "first").find("27.5°"), std::string::npos);
  EXPECT_NE(word(f, "first").find("30°"), std::string::npos);
  EXPECT_NE(word(f, "offers").find("500 × 300 at headlap 115 (gauge 192.5, soaker 332.5 long)"),
            std::string::npos);
  EXPECT_TRUE(c.plan.pieces.empty());
}

TEST(Cases, a02_the_size_that_passes) {
  const Case c = planned("a02-offered-size", engine::Status::done);
  EXPECT_NEAR(c.plan.set_out[0].headlap.in_mm(), 115, kExact);
  EXPECT_NEAR(c.plan.set_out[0].gauge.in_mm(), 192.5, kExact);
  EXPECT_NEAR(soaker(c, "length"), 332.5, kExact);
}

// A3: the floor is 40° handmade, 35° machine-made; the laps are printed all the same.
TEST(Cases, a03_below_the_floor) {
  for (const auto& [name, floor] :
       {std::pair{"a03-handmade-at-26", 40.0}, std::pair{"a03-machine-made-at-26", 35.0}}) {
    const Case c = planned(name, engine::Status::wrong);
    const job::Finding* f = finding(c.plan, "pitch.below_floor");
    ASSERT_NE(f, nullptr) << name;
    EXPECT_EQ(f->level, Level::wrong);
    EXPECT_NEAR(param(f, "floor"), floor, kExact);
    EXPECT_NEAR(param(f, "lap"), 171, kMm);
    EXPECT_NEAR(param(f, "lap_on_tile"), 272, kMm);
  }
}

// A4: the parts that this version has: soakers are wrong, and what serves is named.
TEST(Cases, a04_no_soakers_on_single_lap_tiles) {
  const Case c = planned("a04-flat-tile-soakers", engine::Status::wrong);
  const job::Finding* f = finding(c.plan, "detail.soakers_need_courses");
  ASSERT_NE(f, nullptr);
  EXPECT_EQ(f->level, Level::wrong);
  EXPECT_EQ(word(f, "right"), "detail.secret-gutter");
  EXPECT_TRUE(c.plan.pieces.empty());
}

// A5: refused as a lapped roof, 432 shown as the reason.
TEST(Cases, a05_flat_roof) {
  for (const char* name : {"a05-slate-at-10", "a05-flat-tile-at-10"}) {
    const Case c = planned(name, engine::Status::wrong);
    const job::Finding* f = finding(c.plan, "roof.too_flat");
    ASSERT_NE(f, nullptr) << name;
    EXPECT_EQ(f->level, Level::wrong);
    EXPECT_NEAR(param(f, "lap"), 432, kMm);
    EXPECT_NE(f->text.find("432 mm"), std::string::npos) << f->text;
    EXPECT_TRUE(c.plan.pieces.empty());
    EXPECT_EQ(c.plan.set_out[0].courses, 0);
  }
}

// A6: 15 courses at 333.3; a fixed 345 would leave 170 at the top (5000 − 14 × 345).
TEST(Cases, a06_gauge_shrinks_to_fit) {
  const Case c = planned("a06-run-5000", engine::Status::done);
  EXPECT_EQ(c.plan.set_out[0].courses, 15);
  EXPECT_NEAR(c.plan.set_out[0].gauge.in_mm(), 5000.0 / 15, kExact);
  EXPECT_NEAR(figure_value(c.plan.set_out[0].figures, "last_course"), 5000.0 / 15, 1e-6);
  const job::Finding* f = finding(c.plan, "setout.gauge_shrunk");
  ASSERT_NE(f, nullptr);
  EXPECT_NEAR(param(f, "left"), 170, kExact);
}

// A7: on plain tiles, soakers and step flashing; step and cover is wrong and says what serves.
TEST(Cases, a07_plain_tile) {
  const Case c = planned("a07-plain-tile", engine::Status::done);
  EXPECT_NEAR(soaker(c, "length"), 190, kExact);  // common practice, no source: 265 − 100 + 25
  EXPECT_NEAR(soaker(c, "leg"), 106, kExact);     // 100 and the gap of 6; half a tile is only 82.5
  EXPECT_NEAR(soaker(c, "upstand"), 77, kExact);  // 65 proud of a tile of 12
  EXPECT_NEAR(soaker(c, "lap"), 62, kExact);      // headlap less the set-back
  EXPECT_NEAR(soaker(c, "hook"), 28, kExact);
  EXPECT_FALSE(pieces_of(c.plan, "step-flashing").empty());
  std::int64_t soakers = 0;
  for (const job::Piece* p : pieces_of(c.plan, "soaker")) soakers += p->count;
  EXPECT_EQ(soakers, 36);  // n courses take n soakers
}

TEST(Cases, a07_step_and_cover_is_wrong) {
  const Case c = planned("a07-step-and-cover", engine::Status::wrong);
  const job::Finding* f = finding(c.plan, "detail.cover_on_double_lap");
  ASSERT_NE(f, nullptr);
  EXPECT_EQ(f->level, Level::wrong);
  EXPECT_EQ(word(f, "right"), "detail.soakers-and-steps");
  EXPECT_FALSE(f->text.empty());
  EXPECT_FALSE(c.plan.pieces.empty());
  for (const job::Piece& piece : c.plan.pieces) EXPECT_TRUE(piece.wrong);  // shown, never made
}

// A8: render has no joints: a straight raking chase, 75 above the units, and a turn-in of 25.
TEST(Cases, a08_render) {
  for (const auto& [name, code] : {std::pair{"a08-render-on-slate", 3}, std::pair{"a08-render-code-4", 4}}) {
    const Case c = planned(name, engine::Status::done);
    EXPECT_TRUE(pieces_of(c.plan, "step-flashing").empty());
    const auto covers = pieces_of(c.plan, "cover-flashing");
    ASSERT_EQ(covers.size(), 1U) << name;
    EXPECT_EQ(covers[0]->count, 3);  // 3440 in pieces of 1500 lapped 100
    EXPECT_NEAR(covers[0]->length.in_mm(), (3440 + 200) / 3.0, 1e-3);
    EXPECT_NEAR(figure_value(covers[0]->figures, "width_needed"), 100, kExact);
    EXPECT_EQ(covers[0]->code, 4);
    EXPECT_NEAR(soaker(c, "length"), 310, kExact);  // 500 − 215 + 25
    EXPECT_EQ(pieces_of(c.plan, "soaker").front()->code, code);
    bool chase = false;
    for (const auto& step : c.plan.order_of_work)
      chase = chase || step.text.find("chase") != std::string::npos;
    EXPECT_TRUE(chase);
  }
}

// A9 (a stone roofing association: 20 then 18 in at headlap 3 in: 8½, 6½ once, 7½, which are battens of
// head-hung slates).
TEST(Cases, a09_diminishing_slates) {
  const Case c = planned("a09-diminishing", engine::Status::done);
  ASSERT_EQ(c.plan.set_out.size(), 1U);
  const job::SetOut& out = c.plan.set_out[0];
  ASSERT_EQ(out.courses, 14);
  std::vector<double> tails;
  for (std::size_t i = 0; i + 1 < out.tails.size(); ++i)
    tails.push_back((out.tails[i + 1] - out.tails[i]).in_inches());
  for (std::size_t i = 0; i < tails.size(); ++i) EXPECT_NEAR(tails[i], i < 6 ? 8.5 : 7.5, kExact) << i;
  // How far each unit laps the one two below: 3, 4 at the change, 3.
  std::vector<double> laps;
  for (std::size_t k = 0; k + 2 < out.tails.size(); ++k) {
    const double length = k < 6 ? 20 : 18;
    laps.push_back(out.tails[k].in_inches() + length - out.tails[k + 2].in_inches());
  }
  for (std::size_t k = 0; k < laps.size(); ++k) EXPECT_NEAR(laps[k], k == 5 ? 4 : 3, kExact) << k;
  EXPECT_NEAR(out.headlap.in_inches(), 3, kExact);
  // Head-hung: battens at the heads. Below the change 8½ apart, once 6½, then 7½.
  std::vector<double> battens;
  for (std::size_t i = 1; i + 1 < out.battens.size(); ++i) {
    if (out.battens[i + 1].mark >= c.survey.slopes[0].rafter.value) break;
    battens.push_back((out.battens[i + 1].mark - out.battens[i].mark).in_inches());
  }
  ASSERT_GT(battens.size(), 7U);
  for (std::size_t i = 0; i < battens.size(); ++i)
    EXPECT_NEAR(battens[i], i < 5 ? 8.5 : i == 5 ? 6.5 : 7.5, kExact) << i;
  // Soakers 12½ under the long slates and on the last of them, 11½ above.
  std::vector<double> by_course(14, 0);
  for (const job::Piece* p : pieces_of(c.plan, "soaker")) {
    for (const auto& place : p->placements)
      by_course[static_cast<std::size_t>(place.course)] = p->length.in_inches();
  }
  for (std::size_t k = 0; k <= 11; ++k) EXPECT_NEAR(by_course[k], k <= 6 ? 12.5 : 11.5, 1e-4) << k;
}

// A10: inches in, inches out; 4 in of headlap is over a third of 11 in.
TEST(Cases, a10_inches) {
  const Case c = planned("a10-inches", engine::Status::done);
  EXPECT_NEAR(c.plan.set_out[0].gauge.in_inches(), 3.5, kExact);
  EXPECT_NEAR(soaker(c, "length") / kInch, 8.5, kExact);  // 11 − 3½ + 1
  const job::Finding* f = finding(c.plan, "headlap.over_share");
  ASSERT_NE(f, nullptr);
  EXPECT_NEAR(param(f, "headlap") / kInch, 4, kExact);
  EXPECT_NEAR(param(f, "most") / kInch, 11.0 / 3, kExact);
  const engine::Outcome why = engine::why({c.bytes}, "S1");
  EXPECT_NE(why.text.find("8 1/2 in"), std::string::npos);
  EXPECT_NE(engine::plan({c.bytes}).text.find("8 1/2 in"), std::string::npos);
}

// A11: 75 / sin of the pitch taken: the rafter's 30°, or a tile's that lies 10° flatter.
TEST(Cases, a11_cover_on_rafter_or_tile_pitch) {
  const auto pack = practice::Pack::built_in();
  ASSERT_TRUE(pack);
  constexpr double kDegree = 3.14159265358979323846 / 180;
  EXPECT_NEAR(pack->number("cover.pitch_rise") / std::sin(30 * kDegree), 150, kMm);
  EXPECT_NEAR(pack->number("cover.pitch_rise") / std::sin(20 * kDegree), 219, kMm);
}

// A12: NHBC Standards 7.2.20: pieces of 1500 at most, lead more than 50 into mortar is coated; code 5 when
// exposed.
TEST(Cases, a12_too_long_a_piece) {
  const Case c = planned("a12-too-long-a-piece", engine::Status::wrong);
  const job::Finding* over = finding(c.plan, "practice.over_most");
  ASSERT_NE(over, nullptr);
  EXPECT_EQ(over->level, Level::wrong);
  EXPECT_EQ(word(over, "rule"), "label.flashing.piece_most");
  EXPECT_NEAR(param(over, "limit"), 1500, kExact);
  const job::Finding* coat = finding(c.plan, "flashing.coat_both_faces");
  ASSERT_NE(coat, nullptr);
  EXPECT_NE(coat->text.find("coat both faces"), std::string::npos);
  const job::Finding* thin = finding(c.plan, "flashing.thin_for_exposure");
  ASSERT_NE(thin, nullptr);
  EXPECT_EQ(thin->level, Level::doubt);
  EXPECT_NEAR(param(thin, "code"), 5, kExact);
}

// A13, the soaker's size.
TEST(Cases, a13_soaker_size) {
  const Case c = planned("a13-soaker-size", engine::Status::done);
  EXPECT_NEAR(c.plan.set_out[0].gauge.in_mm(), 160, kExact);
  EXPECT_NEAR(soaker(c, "length"), 265, kExact);
  EXPECT_NEAR(soaker(c, "width"), 275, kExact);
}

// A15: the steps follow the measured joints.
TEST(Cases, a15_joints_77_apart) {
  const Case c = planned("a15-joints-77", engine::Status::done);
  // Joint heights at which the lead turns in, from the lowest: the level edges of the nets, in place.
  const double radians = 35 * 3.14159265358979323846 / 180;
  std::vector<double> heights;
  for (const job::Piece* p : pieces_of(c.plan, "step-flashing")) {
    for (const auto& place : p->placements) {
      for (const auto& fold : p->net.folds) {
        const auto at =
            place.frame.at(geom::to_length(fold.from.x).in_mm(), geom::to_length(fold.from.y).in_mm());
        const double face = 12;  // the tile's thickness: joints are measured from the finished roof
        heights.push_back(at.y * std::sin(radians) + (at.z - face) * std::cos(radians));
      }
    }
  }
  std::sort(heights.begin(), heights.end());
  std::vector<double> distinct;
  for (const double h : heights) {
    if (distinct.empty() || h - distinct.back() > 1) distinct.push_back(h);
  }
  ASSERT_GE(distinct.size(), 10U);
  // The lowest joint, 30 up, lies below the water line (65 / cos 35° = 79): the flashing starts at 107.
  for (std::size_t i = 0; i < distinct.size(); ++i) {
    EXPECT_NEAR(distinct[i], 30 + 77 * static_cast<double>(i + 1), 0.1) << i;
  }
  // "75 assumed" would be 20 out in height and 35 along the slope after ten.
  EXPECT_NEAR(10 * (77 - 75), 20, kMm);
  EXPECT_NEAR(10 * (77 - 75) / std::sin(radians), 35, kMm);
}

// A22: half units of 115 are refused; units and a half on every other course.
TEST(Cases, a22_no_half_units) {
  for (const auto& [name, count] : {std::pair{"a22-both-walls", 28.0}, std::pair{"a22-both-walls-unit", 26.0},
                                    std::pair{"a22-one-wall", 27.0}}) {
    const Case c = planned(name, engine::Status::done);
    EXPECT_EQ(c.plan.set_out[0].courses, 27);
    const job::Finding* f = finding(c.plan, "bond.no_half_units");
    ASSERT_NE(f, nullptr);
    EXPECT_NEAR(param(f, "count"), count, kExact) << name;
    EXPECT_NEAR(param(f, "and_half"), 345, kExact);
    EXPECT_NEAR(param(f, "half"), 115, kExact);
    EXPECT_NEAR(param(f, "narrowest"), 150, kExact);
    double counted = 0;
    for (const job::Row& row : c.plan.rows) {
      for (const auto& run : row.widths) {
        EXPECT_GE(run.width.in_mm(), 150) << name << " course " << row.course;
        if (row.course >= 0 && run.width.in_mm() > 231) counted += static_cast<double>(run.count);
      }
    }
    EXPECT_EQ(counted, count) << name;
  }
}

// A27: 65 proud, and one unit with its camber, at the thick end.
TEST(Cases, a27_upstand_for_the_thickest) {
  const Case c = planned("a27-handmade", engine::Status::done);
  EXPECT_NEAR(soaker(c, "upstand"), 93, kExact);
  const job::Finding* f = finding(c.plan, "soaker.upstand_for_thickest");
  ASSERT_NE(f, nullptr);
  EXPECT_NEAR(param(f, "nominal"), 86, kExact);
  EXPECT_NEAR(param(f, "thickest"), 93, kExact);
}

// On courses of 83 at 35° a 150 strip falls short by 4, and the next is taken with the reason.
TEST(Cases, strip_150_refused_at_courses_of_83) {
  const Case c = planned("strip-83", engine::Status::done);
  const job::Finding* f = finding(c.plan, "step.strip_not_150");
  ASSERT_NE(f, nullptr);
  EXPECT_NEAR(param(f, "needed"), 153.5, kMm);  // 65 + (83 + 25)·cos 35°
  EXPECT_NEAR(param(f, "strip"), 180, kExact);
  EXPECT_NE(f->text.find("83 mm"), std::string::npos);
  for (const job::Piece* p : pieces_of(c.plan, "step-flashing")) EXPECT_NEAR(p->width.in_mm(), 180, kExact);
  EXPECT_EQ(finding(planned("a07-plain-tile", engine::Status::done).plan, "step.strip_not_150"), nullptr);
}

// A head-nailed slate's soaker is L − G + 25, not "gauge + lap + 25", which would leave no turn-down.
TEST(Cases, head_nailed_soaker_reaches_the_head) {
  const Case c = planned("head-nailed", engine::Status::done);
  EXPECT_NEAR(c.plan.set_out[0].gauge.in_mm(), 187.5, kExact);
  EXPECT_NEAR(c.plan.set_out[0].headlap.in_mm(), 100, kExact);
  EXPECT_NEAR(soaker(c, "length"), 337.5, kExact);
}

}  // namespace
}  // namespace lapwright
