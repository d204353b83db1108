// Rows of slopes that something stands on. That units lie nowhere in masonry, and everywhere else, is
// geometry; tests/support/judge_parted.cpp tries it point by point without the planner's own shapes.
#include "judge_places.h"
#include "planning.h"

#include <lapwright/base/generator.h>
#include <lapwright/job/layout.h>
#include <lapwright/practice/defaults.h>
#include <lapwright/setout/lay_out.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

namespace lapwright {
namespace {

using sample::end_of;
using sample::mm;

Length len(double v) {
  return Length::mm(v);
}

job::Covering plain_tile() {
  job::Covering c;
  c.length = len(265);
  c.width = len(165);
  c.thickness = len(12);
  c.max_gauge = len(100);
  return c;
}

// Without joints, and of a width that whole slates fill, a course looks the same in a mirror.
job::Covering slate() {
  job::Covering c;
  c.kind = job::CoveringKind::slate;
  c.length = len(500);
  c.width = len(250);
  c.thickness = len(6);
  c.headlap = len(90);
  c.joint = len(0);
  return c;
}

job::Survey roof(const job::Covering& covering, double pitch = 40, double rafter = 3600,
                 double width = 5200) {
  job::Survey survey;
  job::Slope slope;
  slope.name = "rear";
  slope.path = "$.slopes[0]";
  slope.pitch = Angle::degrees(pitch);
  slope.rafter = len(rafter);
  slope.width = len(width);
  slope.covering = covering;
  survey.slopes = {slope};
  return survey;
}

job::Junction stack(double at, double front, double width = 665, double depth = 440) {
  job::Junction j;
  j.kind = job::JunctionKind::stack;
  j.name = "stack";
  j.at = len(at);
  j.front = len(front);
  j.width = len(width);
  j.depth = len(depth);
  return j;
}

job::Junction line(const std::vector<std::pair<double, double>>& points) {
  job::Junction j;
  j.kind = job::JunctionKind::wall;
  j.name = "line";
  for (const auto& [u, s] : points) j.line.push_back({len(u), len(s)});
  return j;
}

job::Junction side(job::Hand hand) {
  job::Junction j;
  j.kind = job::JunctionKind::side;
  j.name = "side";
  j.hand = hand;
  return j;
}

struct Laid {
  job::Plan plan;
  std::vector<job::SlopeLayout> layouts;
};

Laid lay(const job::Survey& survey, const practice::Pack& pack) {
  Laid out;
  for (std::size_t i = 0; i < survey.slopes.size(); ++i) {
    auto layout = setout::lay_out(survey, i, pack);
    EXPECT_TRUE(layout);
    if (!layout) continue;
    out.plan.set_out.push_back(layout->set_out);
    out.plan.rows.insert(out.plan.rows.end(), layout->rows.begin(), layout->rows.end());
    out.plan.findings.insert(out.plan.findings.end(), layout->findings.begin(), layout->findings.end());
    out.layouts.push_back(std::move(*layout));
  }
  return out;
}

practice::Pack pack_of() {
  auto pack = practice::Pack::built_in();
  EXPECT_TRUE(pack);
  return std::move(*pack);
}

std::string complaint(const job::Survey& survey, const practice::Pack& pack, const job::Plan& plan,
                      std::int64_t points = 3000) {
  const sample::Judged judged{survey, pack, plan};
  for (const job::Slope& slope : survey.slopes) {
    if (std::string c = sample::parted_rows_complaint(judged, slope, points); !c.empty()) return c;
  }
  return {};
}

std::vector<double> perps(const job::Row& row) {
  std::vector<double> out;
  double at = mm(row.from);
  for (const job::UnitRun& run : row.widths) {
    for (std::int64_t i = 0; i < run.count; ++i) {
      at += mm(run.width);
      out.push_back(at + mm(row.gap) / 2);
      at += mm(row.gap);
    }
  }
  out.pop_back();
  return out;
}

const job::Finding* finding(const job::Plan& plan, std::string_view rule) {
  for (const job::Finding& f : plan.findings) {
    if (f.rule == rule) return &f;
  }
  return nullptr;
}

// Every point of a fine grid over the slope: in the stack and over its gutter none, everywhere else at least
// one unit, but for the gap of 6 beside the faces and the joints of 3 (common practice, no source).
TEST(Parted, rows_cover_the_slope_less_the_stack) {
  const auto pack = pack_of();
  job::Survey survey = roof(plain_tile());
  survey.slopes[0].junctions = {stack(2600, 1500)};
  const Laid laid = lay(survey, pack);
  EXPECT_EQ(complaint(survey, pack, laid.plan, 20000), "");

  constexpr double kStep = 2.5;
  const double cosine = std::cos(40 * std::acos(-1.0) / 180);
  const double left = 2600 - 332.5;
  const double right = 2600 + 332.5;
  const double back = 1500 + 440 / cosine;
  const double gutter = back + 150 / cosine;  // from memory, not seen in print
  // One grid line at a time, every row that crosses it: how many units lie over each point.
  std::int64_t none = 0;
  std::int64_t once_or_more = 0;
  std::int64_t wrong = 0;
  for (double s = kStep / 2; s < 3600; s += kStep) {
    std::vector<int> over(static_cast<std::size_t>(5200 / kStep), 0);
    for (const job::Row& row : laid.plan.rows) {
      if (s < mm(row.tail) || s > mm(row.tail + row.length)) continue;
      double at = mm(row.from);
      for (const job::UnitRun& run : row.widths) {
        for (std::int64_t i = 0; i < run.count; ++i, at += mm(run.width + row.gap)) {
          const auto first = static_cast<std::size_t>(std::ceil((at - kStep / 2) / kStep));
          for (std::size_t k = first; static_cast<double>(k) * kStep + kStep / 2 <= at + mm(run.width); ++k) {
            if (k < over.size()) ++over[k];
          }
        }
      }
    }
    for (std::size_t k = 0; k < over.size(); ++k) {
      const double u = (static_cast<double>(k) + 0.5) * kStep;
      const bool between = u > left && u < right;
      if (between && s > 1500 && s < gutter) {
        ++none;
        if (over[k] != 0 && ++wrong < 5) ADD_FAILURE() << "a unit at " << u << ", " << s;
        continue;
      }
      // Joints that follow the corners, in front, lie under an apron of 165 (G + H).
      const bool at_corner = std::min(std::fabs(u - left), std::fabs(u - right)) < 7 && s > 1500 - 165;
      const bool beside_face = at_corner || (u > left - 7 && u < right + 7 && s > 1500 - 7 && s < gutter);
      if (beside_face) continue;
      ++once_or_more;
      if (over[k] == 0 && ++wrong < 5) ADD_FAILURE() << "none at " << u << ", " << s;
    }
  }
  EXPECT_EQ(wrong, 0);
  // The grid saw what it should: the stack with its gutter, and the rest.
  const double hole = 665 * (gutter - 1500);
  EXPECT_NEAR(static_cast<double>(none) * kStep * kStep, hole, hole / 100);
  EXPECT_GT(static_cast<double>(once_or_more) * kStep * kStep, 0.97 * (5200 * 3600 - hole));
}

// Left and right of the stack the joints are those of the empty slope, but for the unit that is cut there and
// the one beside it; so bond is kept.
TEST(Parted, bond_is_that_of_the_empty_slope) {
  const auto pack = pack_of();
  for (const job::Covering& covering : {plain_tile(), slate()}) {
    job::Survey survey = roof(covering);
    const Laid empty = lay(survey, pack);
    survey.slopes[0].junctions = {stack(2600, 1500)};
    const Laid parted = lay(survey, pack);
    const double unit = mm(covering.width.value);
    std::int64_t compared = 0;
    for (const job::Row& row : parted.plan.rows) {
      const auto whole = job::rows_of_course(empty.plan.rows, "rear", row.course);
      ASSERT_EQ(whole.size(), 1U);
      const std::vector<double> there = perps(whole[0]);
      for (const double p : perps(row)) {
        const bool mended =
            std::fabs(p - mm(row.from)) < 2.1 * unit || std::fabs(p - end_of(row)) < 2.1 * unit;
        const auto nearest = std::min_element(there.begin(), there.end(), [&](double a, double b) {
          return std::fabs(a - p) < std::fabs(b - p);
        });
        if (mended) continue;
        EXPECT_NEAR(*nearest, p, 1e-6) << "course " << row.course;
        ++compared;
      }
    }
    EXPECT_GT(compared, 250);
  }
}

// Half a tile is the narrowest cut, of a slate 150 (common practice, no source): never less beside a stack,
// wherever it stands.
TEST(Parted, narrow_cuts_are_merged_at_the_faces) {
  const auto pack = pack_of();
  std::int64_t and_halves = 0;
  for (const job::Covering& covering : {plain_tile(), slate()}) {
    const double narrowest = covering.kind == job::CoveringKind::slate ? 150 : 82.5;
    for (double at = 2000; at < 2260; at += 7) {
      job::Survey survey = roof(covering);
      survey.slopes[0].junctions = {stack(at, 1500)};
      const Laid laid = lay(survey, pack);
      for (const job::Row& row : laid.plan.rows) {
        // Courses that stand beside the stack with all that is seen of them.
        if (mm(row.tail) < 1500 || mm(row.tail) > 1900) continue;
        for (const job::UnitRun& run : row.widths) {
          EXPECT_GE(mm(run.width), narrowest - 1e-6) << at << ", course " << row.course;
          and_halves += mm(run.width) > mm(covering.width.value) + 1e-6;
        }
      }
    }
  }
  EXPECT_GT(and_halves, 100);
}

// In front of the stack units are short and holed again below the cut; behind, they begin at the far edge of
// the sole: 150 level (from memory, not seen in print).
TEST(Parted, units_in_front_are_short_and_those_behind_begin_over_the_gutter) {
  const auto pack = pack_of();
  job::Survey survey = roof(plain_tile());
  survey.slopes[0].junctions = {stack(2600, 1500)};
  const Laid laid = lay(survey, pack);
  const double begin = 1500 + (440 + 150) / std::cos(40 * std::acos(-1.0) / 180);
  std::int64_t short_ones = 0;
  std::int64_t late_ones = 0;
  for (const job::Row& row : laid.plan.rows) {
    const bool between = mm(row.from) > 2200 && end_of(row) < 3000;
    const double head = mm(row.tail + row.length);
    if (!between) {
      EXPECT_TRUE(row.course < 0 || head == 3600 || std::fabs(mm(row.length) - 265) < 1e-9);
      continue;
    }
    if (mm(row.tail) < 1500) {
      ++short_ones;
      EXPECT_NEAR(head, 1500 - 6, 1e-9);
      EXPECT_LE(mm(row.nail_up), mm(row.length) - 25 + 1e-9);
    } else {
      ++late_ones;
      EXPECT_NEAR(mm(row.tail), begin, 1e-9);
      EXPECT_NEAR(mm(row.tail + row.nail_up), head - 25, 1e-9);
    }
  }
  EXPECT_EQ(short_ones, 2);  // tails at 1300 and 1400: only these reach past 1500
  EXPECT_EQ(late_ones, 2);   // the exposed course and the one under it, as at the eaves
  // What is seen of course 13 ends below the stack: its units go round the corner. Course 14 stands beside
  // it.
  const auto rows13 = job::rows_of_course(laid.plan.rows, "rear", 13);
  ASSERT_EQ(rows13.size(), 3U);
  EXPECT_NEAR(end_of(rows13[0]), mm(rows13[1].from), 1e-9);
  EXPECT_NEAR(end_of(rows13[1]) + 3, mm(rows13[2].from), 1e-9);  // a joint of its own falls there
  const auto rows14 = job::rows_of_course(laid.plan.rows, "rear", 14);
  ASSERT_EQ(rows14.size(), 3U);
  EXPECT_NEAR(end_of(rows14[0]) + 3, mm(rows14[1].from), 1e-9);
  // Courses wholly beside it have two rows.
  EXPECT_EQ(job::rows_of_course(laid.plan.rows, "rear", 17).size(), 2U);
}

TEST(Parted, wherever_the_stack_stands) {
  const auto pack = pack_of();
  const auto try_with = [&](const std::vector<job::Junction>& junctions, const std::string& what) {
    for (const job::Covering& covering : {plain_tile(), slate()}) {
      job::Survey survey = roof(covering);
      survey.slopes[0].junctions = junctions;
      const Laid laid = lay(survey, pack);
      EXPECT_EQ(complaint(survey, pack, laid.plan), "") << what;
      EXPECT_FALSE(laid.plan.rows.empty());
    }
  };
  try_with({stack(2600, 0)}, "at the eaves");
  try_with({stack(2600, 30)}, "just above the eaves");
  try_with({stack(2600, 3000)}, "against the ridge");
  try_with({stack(2600, 2650)}, "its gutter against the ridge");
  try_with({stack(200, 1500)}, "over the left edge");
  try_with({stack(5000, 1500)}, "over the right edge");
  try_with({stack(2600, 1500, 6000)}, "wider than the slope");
  try_with({side(job::Hand::left), stack(500, 1500, 900)}, "a strip beside a wall");
  try_with({stack(1500, 1500), stack(3500, 1700)}, "two, side by side");
  try_with({stack(2000, 800), stack(2300, 2300)}, "two, one above the other");
  try_with({stack(2000, 1500), stack(2500, 1600)}, "two that touch");
  try_with({stack(2600, 1500, 665, 100)}, "thinner than a unit is long");
}

// On either slope the part of the stack that stands there, and nothing above it.
TEST(Parted, by_a_stack_across_the_ridge) {
  const auto pack = pack_of();
  job::Survey survey = roof(plain_tile());
  survey.slopes.push_back(survey.slopes[0]);
  survey.slopes[1].name = "front";
  survey.slopes[1].pitch = Angle::degrees(45);
  survey.slopes[1].covering = slate();
  survey.slopes[0].junctions = {stack(1800, 3300, 665, 900)};
  survey.slopes[0].junctions[0].across = "front";
  const Laid laid = lay(survey, pack);
  EXPECT_EQ(complaint(survey, pack, laid.plan, 10000), "");
  for (const char* name : {"rear", "front"}) {
    const std::int64_t last = name == std::string("rear") ? 35 : laid.plan.set_out[1].courses - 1;
    const auto rows = job::rows_of_course(laid.plan.rows, name, last);
    ASSERT_EQ(rows.size(), 2U) << name;
    const double middle = name == std::string("rear") ? 1800 : 5200 - 1800;  // seen from the other side
    EXPECT_LT(end_of(rows[0]), middle);
    EXPECT_GT(mm(rows[1].from), middle);
  }
}

TEST(Parted, by_walls_on_a_line) {
  const auto pack = pack_of();
  const std::vector<std::pair<std::string, std::vector<std::pair<double, double>>>> lines{
      {"skew, eaves to top", {{0, 0}, {900, 3600}}},
      {"skew, on the right", {{4300, 3600}, {5200, 0}}},
      {"upright, at the eaves", {{900, 0}, {900, 1500}}},
      {"bent", {{300, 0}, {500, 1700}, {1400, 3600}}},
      {"bent the other way", {{300, 0}, {1200, 1700}, {1400, 3600}}},
      {"within the slope", {{1500, 1000}, {2100, 2400}}},
      {"a stack drawn as a line", {{500, 1000}, {1000, 1000}, {1000, 2000}, {500, 2000}, {500, 1000}}},
      {"a dormer", {{2000, 2500}, {2000, 1200}, {3100, 1200}, {3100, 2500}}},
      {"on the slope's own edge", {{0, 0}, {0, 3600}}},
  };
  for (const auto& [what, points] : lines) {
    for (const job::Covering& covering : {plain_tile(), slate()}) {
      job::Survey survey = roof(covering);
      survey.slopes[0].junctions = {line(points)};
      const Laid laid = lay(survey, pack);
      EXPECT_EQ(complaint(survey, pack, laid.plan, 6000), "") << what;
    }
  }
  // Beside a skew wall each row follows it: 900 in 3600, a quarter; 6 off it, square.
  job::Survey survey = roof(plain_tile());
  survey.slopes[0].junctions = {line({{0, 0}, {900, 3600}})};
  const Laid laid = lay(survey, pack);
  const double off = 6 * std::sqrt(1 + 1 / 16.0);
  for (const job::Row& row : laid.plan.rows) {
    ASSERT_TRUE(row.left_rake);
    EXPECT_NEAR(mm(row.left_rake->at_tail), mm(row.tail) / 4 + off, 1e-6);
    EXPECT_NEAR(mm(row.left_rake->at_head), mm(row.tail + row.length) / 4 + off, 1e-6);
    EXPECT_FALSE(row.right_rake);
    EXPECT_LE(mm(row.from), mm(row.left_rake->at_tail) + 3 + 1e-6);
  }
}

// Half of 100 clear, 125 below 30 degrees (NHBC Standards 7.2.21), square to the line; at equal pitches that
// meet square the line drifts by cos of the pitch (geometry).
TEST(Parted, by_a_valley_and_a_hip) {
  const auto pack = pack_of();
  for (const double pitch : {25.0, 40.0}) {
    for (const bool valley : {true, false}) {
      job::Survey survey = roof(slate(), pitch, 3600, 6000);
      survey.slopes.push_back(survey.slopes[0]);
      survey.slopes[1].name = "wing";
      job::Join join;
      join.kind = valley ? job::JoinKind::valley : job::JoinKind::hip;
      join.slopes = {"rear", "wing"};
      survey.joins = {join};
      const Laid laid = lay(survey, pack);
      EXPECT_EQ(complaint(survey, pack, laid.plan, 6000), "") << pitch << valley;
      const double drift = std::cos(pitch * std::acos(-1.0) / 180) * (valley ? 1 : -1);
      const double clear = !valley ? 0 : pitch < 30 ? 62.5 : 50;
      const double off = clear * std::sqrt(1 + drift * drift);
      for (const job::Row& row : laid.plan.rows) {
        if (row.slope != "rear") continue;
        ASSERT_TRUE(row.right_rake);
        EXPECT_NEAR(mm(row.right_rake->at_tail), 6000 + drift * mm(row.tail) - off, 1e-6);
        EXPECT_NEAR(mm(row.right_rake->at_head), 6000 + drift * mm(row.tail + row.length) - off, 1e-6);
      }
    }
  }
}

// Seen in a mirror the rows are the mirror's.
TEST(Parted, as_the_mirror_has_it) {
  const auto pack = pack_of();
  using Unit = std::array<std::int64_t, 4>;  // tail, head, left, right, in µm
  const auto units = [](const job::Plan& plan, bool mirrored) {
    std::multiset<Unit> out;
    const auto um = [](double v) { return static_cast<std::int64_t>(std::llround(v * 1000)); };
    for (const job::Row& row : plan.rows) {
      double at = mm(row.from);
      for (const job::UnitRun& run : row.widths) {
        for (std::int64_t i = 0; i < run.count; ++i, at += mm(run.width + row.gap)) {
          const double left = mirrored ? 5000 - at - mm(run.width) : at;
          out.insert({um(mm(row.tail)), um(mm(row.tail + row.length)), um(left), um(left + mm(run.width))});
        }
      }
    }
    return out;
  };
  for (double at = 1000; at < 4000; at += 83) {
    job::Survey survey = roof(slate(), 40, 3600, 5000);
    job::Survey mirrored = survey;
    survey.slopes[0].junctions = {stack(at, 1450), line({{0, 3200}, {900, 3600}})};
    mirrored.slopes[0].junctions = {stack(5000 - at, 1450), line({{4100, 3600}, {5000, 3200}})};
    EXPECT_TRUE(units(lay(survey, pack).plan, false) == units(lay(mirrored, pack).plan, true)) << at;
  }
}

// Beside a wall that is not straight each course ends at the widest gap that is exposed beside it.
TEST(Parted, rows_follow_a_gap_that_tapers) {
  const auto pack = pack_of();
  job::Survey survey = roof(plain_tile());
  job::Junction wall = side(job::Hand::left);
  wall.gaps = {{len(0), len(4)}, {len(3000), len(34)}};
  survey.slopes[0].junctions = {wall};
  EXPECT_EQ(mm(practice::gap_at(wall, len(1500), pack)), 19);
  EXPECT_EQ(mm(practice::gap_at(wall, len(3500), pack)), 34);
  EXPECT_EQ(mm(practice::widest_gap_between(wall, len(100), len(3200), pack)), 34);
  EXPECT_EQ(mm(practice::gap_at(side(job::Hand::left), len(3), pack)), 6);
  const Laid laid = lay(survey, pack);
  for (const job::Row& row : laid.plan.rows) {
    const double next = std::max(mm(row.tail), 0.0) + 100;
    EXPECT_NEAR(mm(row.from), std::min(34.0, 4 + next / 100), 1e-6) << row.course;
  }
  const job::Finding* tapers = finding(laid.plan, "gap.tapers");
  ASSERT_NE(tapers, nullptr);
  EXPECT_EQ(tapers->level, job::Level::note);
  EXPECT_EQ(*tapers->value, 30);
  EXPECT_EQ(finding(laid.plan, "gap.too_wide"), nullptr);

  // By no more than snips cut to, it is straight.
  survey.slopes[0].junctions[0].gaps = {{len(0), len(4)}, {len(3000), len(7)}};
  EXPECT_EQ(finding(lay(survey, pack).plan, "gap.tapers"), nullptr);
}

// Over 50 no soaker bridges it (common practice, no source): 50 at 1500, 80 at 3000 and above.
TEST(Parted, a_gap_too_wide_is_said_from_where_to_where) {
  const auto pack = pack_of();
  job::Survey survey = roof(plain_tile());
  job::Junction wall = side(job::Hand::right);
  wall.gaps = {{len(0), len(20)}, {len(3000), len(80)}};
  survey.slopes[0].junctions = {wall};
  const Laid laid = lay(survey, pack);
  const job::Finding* wide = finding(laid.plan, "gap.too_wide");
  ASSERT_NE(wide, nullptr);
  EXPECT_EQ(wide->level, job::Level::doubt);
  EXPECT_NEAR(std::get<double>(wide->params[0].value), 1500, 1e-9);
  EXPECT_NEAR(std::get<double>(wide->params[1].value), 3600, 1e-9);
  EXPECT_NEAR(std::get<double>(wide->params[2].value), 80, 1e-9);
  // Half a tile is 82.5: more than that cannot be built.
  survey.slopes[0].junctions[0].gaps = {{len(0), len(20)}, {len(1000), len(83)}, {len(2000), len(20)}};
  const Laid wider = lay(survey, pack);
  wide = finding(wider.plan, "gap.too_wide");
  ASSERT_NE(wide, nullptr);
  EXPECT_EQ(wide->level, job::Level::wrong);
  EXPECT_LT(std::get<double>(wide->params[1].value), 2000);
  survey.slopes[0].junctions[0].gaps = {{{}, len(50)}};
  EXPECT_EQ(finding(lay(survey, pack).plan, "gap.too_wide"), nullptr);
}

TEST(Parted, a_strip_too_narrow_for_a_unit_is_said) {
  const auto pack = pack_of();
  job::Survey survey = roof(plain_tile());
  survey.slopes[0].junctions = {stack(400, 1500, 700)};  // 50 left beside it, less the gap
  const job::Finding* narrow = nullptr;
  const Laid laid = lay(survey, pack);
  narrow = finding(laid.plan, "bond.narrow_strip");
  ASSERT_NE(narrow, nullptr);
  EXPECT_NEAR(*narrow->value, 44, 1e-9);
  survey.slopes[0].junctions = {stack(440, 1500, 700)};
  EXPECT_EQ(finding(lay(survey, pack).plan, "bond.narrow_strip"), nullptr);
}

TEST(Parted, the_unit_beside_a_face_is_found) {
  const auto pack = pack_of();
  job::Survey survey = roof(plain_tile());
  survey.slopes[0].junctions = {stack(2600, 1500)};
  const Laid laid = lay(survey, pack);
  const auto rows = job::rows_of_course(laid.plan.rows, "rear", 17);
  const auto left = job::unit_at_face(rows, len(2600 - 332.5), job::Hand::right);
  ASSERT_TRUE(left);
  EXPECT_EQ(left->row, rows.data());
  EXPECT_NEAR(mm(left->from + left->width), 2600 - 332.5 - 6, 1e-9);
  const auto right = job::unit_at_face(rows, len(2600 + 332.5), job::Hand::left);
  ASSERT_TRUE(right);
  EXPECT_EQ(right->row, &rows[1]);
  EXPECT_EQ(right->number, 0);
  EXPECT_NEAR(mm(right->from), 2600 + 332.5 + 6, 1e-9);
  // At the slope's own edge the last unit of the last row.
  const auto last = job::unit_at_face(rows, len(5200), job::Hand::right);
  ASSERT_TRUE(last);
  EXPECT_NEAR(mm(last->from + last->width), end_of(rows[1]), 1e-9);
  EXPECT_TRUE(job::rows_of_course(laid.plan.rows, "rear", 99).empty());
  EXPECT_TRUE(job::rows_of_course(laid.plan.rows, "nowhere", 0).empty());
}

// Soakers beside a stack that lie flat above the heads, nailed there, are met by the nails of the next
// course: on centre-nailed slates they are left out (trade's own arithmetic; judged from the placed shapes).
TEST(Parted, no_nail_goes_through_the_lead_beside_a_stack) {
  std::int64_t left_out = 0;
  for (int front = 700; front < 1100; front += 37) {
    for (const char* head : {"hooked", "batten"}) {
      const std::string bytes =
          R"({"format": "lapwright-job/1", "slopes": [{"name": "rear", "pitch": 40, "rafter": 3600, "width": 5200,
              "covering": {"kind": "slate", "length": 500, "width": 250, "thickness": 6, "headlap": 90},
              "junctions": [{"name": "stack", "kind": "stack", "at": 2500, "width": 700, "depth": 600, "soaker_head": ")" +
          std::string(head) + R"(", "front": )" + std::to_string(front) +
          R"(, "wall": {"kind": "brick", "course": 75, "first_joint": 30}}]}]})";
      const auto planned = engine::plan_job(bytes);
      ASSERT_TRUE(planned);
      EXPECT_EQ(sample::nails_complaint({planned->survey, planned->pack, planned->plan}), "") << bytes;
      for (const job::Row& row : planned->plan.rows)
        left_out += static_cast<std::int64_t>(row.nails_left_out.size());
    }
  }
  EXPECT_GT(left_out, 50);
}

// Nails of units cut short in front of a stack lie lower than their neighbours', and may meet the lead beside
// a wall that those clear.
TEST(Parted, no_nail_of_a_short_unit_goes_through_the_lead_beside_a_wall) {
  std::int64_t judged = 0;
  for (int front = 700; front < 1100; front += 7) {
    const std::string bytes =
        R"({"format": "lapwright-job/1", "slopes": [{"name": "rear", "pitch": 40, "rafter": 3600, "width": 5200,
            "covering": {"kind": "slate", "length": 500, "width": 250, "thickness": 6, "headlap": 90},
            "junctions": [{"name": "wall", "kind": "side", "hand": "right", "to": )" +
        std::to_string(front - 60) + R"(,
                           "wall": {"kind": "brick", "course": 75, "first_joint": 30}},
                          {"name": "stack", "kind": "stack", "at": 4900, "width": 800, "depth": 600, "front": )" +
        std::to_string(front) + R"(, "wall": {"kind": "brick", "course": 75, "first_joint": 30}}]}]})";
    const auto planned = engine::plan_job(bytes);
    ASSERT_TRUE(planned);
    EXPECT_EQ(sample::nails_complaint({planned->survey, planned->pack, planned->plan}), "") << front;
    for (const job::Row& row : planned->plan.rows) judged += mm(row.from) > 4000 && mm(row.length) < 200;
  }
  EXPECT_GT(judged, 10);
}

TEST(Parted, two_thousand_roofs_at_random) {
  const auto pack = pack_of();
  Generator random(20260611);
  const auto pick = [&](double low, double high) { return low + (high - low) * random.unit(); };
  std::int64_t rows = 0;
  std::int64_t several = 0;
  int shown = 0;
  for (int i = 0; i < 2000 && shown < 3; ++i) {
    const double rafter = pick(900, 6000);
    const double width = pick(900, 8000);
    job::Survey survey = roof(random.chance(0.5) ? plain_tile() : slate(), pick(25, 60), rafter, width);
    job::Slope& slope = survey.slopes[0];
    if (random.chance(0.5)) slope.covering.joint = len(pick(0, 8));
    std::string what = std::to_string(i);
    const auto place = [&](const job::Junction& j) {
      slope.junctions.push_back(j);
      what += " [" + std::to_string(mm(*j.at)) + " " + std::to_string(mm(*j.front)) + " " +
              std::to_string(mm(*j.width)) + " " + std::to_string(mm(*j.depth)) + "]";
    };
    const bool beside_line = random.chance(0.2);  // then clear of it: how two walls meet is bespoke
    for (std::int64_t n = random.between(1, 3); n > 0; --n) {
      const double wide = pick(200, 1500);
      place(stack(beside_line ? width / 3 + 300 + wide / 2 + pick(0, width / 2) : pick(0, width),
                  pick(0, rafter), wide, pick(100, 1200)));
    }
    if (random.chance(0.3)) slope.junctions.push_back(side(job::Hand::left));
    if (random.chance(0.3)) slope.junctions.push_back(side(job::Hand::right));
    if (beside_line) slope.junctions.push_back(line({{0, 0}, {pick(0, width / 3), rafter}}));
    for (job::Junction& j : slope.junctions) {
      if (random.chance(0.3)) j.gaps = {{{}, len(pick(0, 25))}};
      if (j.kind == job::JunctionKind::wall) what += " line to " + std::to_string(mm(j.line[1].u));
      if (!j.gaps.empty()) what += " gap " + std::to_string(mm(j.gaps[0].width.value));
    }
    const Laid laid = lay(survey, pack);
    const std::string c = complaint(survey, pack, laid.plan, 150);
    if (!c.empty()) {
      ++shown;
      ADD_FAILURE() << c << "\n"
                    << what << " pitch " << slope.pitch.value.in_degrees() << " rafter " << rafter
                    << " width " << width << " joint "
                    << (slope.covering.joint ? mm(*slope.covering.joint) : -1.0);
    }
    rows += static_cast<std::int64_t>(laid.plan.rows.size());
    for (std::size_t r = 1; r < laid.plan.rows.size(); ++r)
      several += laid.plan.rows[r].course == laid.plan.rows[r - 1].course;
  }
  EXPECT_GT(rows, 50'000);
  EXPECT_GT(several, 20'000);
}

}  // namespace
}  // namespace lapwright
