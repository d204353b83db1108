// Lead where two slopes meet, on real plans.
#include "formula.h"
#include "planned.h"
#include "planning.h"

#include <lapwright/base/generator.h>
#include <lapwright/geom/net.h>
#include <lapwright/job/join.h>
#include <lapwright/pieces/plan_joins.h>
#include <lapwright/setout/lay_out.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace lapwright {
namespace {

using job::Level;
using sample::figure_value;
using sample::finding;
using sample::param;
using sample::pieces_of;

job::Plan planned(const std::string& name) {
  auto whole = engine::plan_job(sample::file_bytes("tests/jobs/cases/" + name + ".json"));
  EXPECT_TRUE(whole) << name;
  return whole ? std::move(whole->plan) : job::Plan{};
}

// Pitches of the line and laps: two 35° slopes meeting square, two 30°. Source: trade body's manual (75 over
// the sine of the valley's own pitch), as quoted in the trade notes.
TEST(Joins, valley_laps_by_its_own_pitch) {
  const job::Plan at35 = planned("a24-valley-35");
  const auto valley35 = pieces_of(at35, "valley");
  ASSERT_EQ(valley35.size(), 1U);
  EXPECT_NEAR(figure_value(valley35[0]->figures, "true_pitch"), 26.3, 0.05);
  EXPECT_NEAR(figure_value(valley35[0]->figures, "lap"), 169, 0.5);
  EXPECT_EQ(figure_value(valley35[0]->figures, "clear"), 100);
  EXPECT_EQ(valley35[0]->width, Length::mm(450));
  EXPECT_EQ(valley35[0]->code, 5);
  EXPECT_EQ(valley35[0]->mark, "V1");
  const job::Plan at30 = planned("a24-valley-30");
  const auto valley30 = pieces_of(at30, "valley");
  ASSERT_EQ(valley30.size(), 1U);
  EXPECT_NEAR(figure_value(valley30[0]->figures, "true_pitch"), 22.2, 0.05);
  EXPECT_NEAR(figure_value(valley30[0]->figures, "lap"), 198, 0.5);
  EXPECT_EQ(finding(at30, "join.courses_meet"), nullptr);  // same gauge on both: nothing to say
}

// A tile of 12, 265 long at a gauge of 100, has its head 31.8 below the face that its tail rests on.
TEST(Joins, valley_lies_under_the_units_heads) {
  const job::Plan plan = planned("all-together");
  ASSERT_EQ(plan.set_out.front().gauge, Length::mm(100));
  const auto valley = pieces_of(plan, "valley");
  ASSERT_EQ(valley.size(), 1U);
  EXPECT_NEAR(figure_value(valley[0]->figures, "below"), 12 * 2.65 + 25 - 19, 1e-9);
  for (const job::Placement& placement : valley[0]->placements) {
    EXPECT_NEAR(placement.frame.at(0, 0).z, -37.8, 1e-9);
    EXPECT_NEAR(placement.frame.normal().z, 1, 1e-12);
  }
}

// Pieces, less their laps, make the line and the drop past its foot; none is longer than 1500 (NHBC 7.2).
TEST(Joins, valley_pieces_make_the_line) {
  for (const char* name : {"a24-valley-35", "a24-valley-30", "valley-unequal", "a23-courses-35-50-open"}) {
    const job::Plan plan = planned(name);
    const auto valley = pieces_of(plan, "valley");
    ASSERT_EQ(valley.size(), 1U) << name;
    const job::Piece& piece = *valley[0];
    EXPECT_LE(piece.length.in_mm(), 1500 + 1e-6);
    const double lap = figure_value(piece.figures, "lap");
    const double n = static_cast<double>(piece.count);
    EXPECT_NEAR(n * piece.length.in_mm() - (n - 1) * lap, figure_value(piece.figures, "run") + 50, 1e-6);
    EXPECT_GT((n - 1) * 1500 - (n - 2) * lap, 0);
    EXPECT_LT((n - 1) * 1500 - (n - 2) * lap, figure_value(piece.figures, "run") + 50);  // one fewer is short
    ASSERT_EQ(piece.placements.size(), static_cast<std::size_t>(piece.count));
    for (std::size_t i = 1; i < piece.placements.size(); ++i) {
      const geom::Vec3 step = piece.placements[i].frame.origin - piece.placements[i - 1].frame.origin;
      EXPECT_NEAR(geom::length_of(step), piece.length.in_mm() - lap, 1e-6);
    }
    const auto saddle = pieces_of(plan, "valley-saddle");
    ASSERT_EQ(saddle.size(), 1U);
    EXPECT_GE(saddle[0]->length.in_mm(), std::max(450.0, 2 * lap) - 1e-6);
  }
}

TEST(Joins, valley_is_wider_below_30_and_laps_more_where_exposed) {
  const job::Plan plan = planned("valley-unequal");
  const auto valley = pieces_of(plan, "valley");
  ASSERT_EQ(valley.size(), 1U);
  EXPECT_EQ(figure_value(valley[0]->figures, "clear"), 125);
  const double v = figure_value(valley[0]->figures, "true_pitch");
  EXPECT_NEAR(figure_value(valley[0]->figures, "lap"), 100 / std::sin(v * std::acos(-1.0) / 180), 1e-6);
}

// Level courses: 100 at 35° climbs 57.4, which a slope of 50° reaches at 74.9 and one of 40° at 89.2.
TEST(Joins, courses_of_unequal_slopes) {
  const job::Plan mitred = planned("a23-courses-35-50");
  const job::Finding* missed = finding(mitred, "join.courses_cannot_meet");
  ASSERT_NE(missed, nullptr);
  EXPECT_EQ(missed->level, Level::wrong);
  EXPECT_NEAR(param(missed, "needed"), 74.9, 0.05);
  EXPECT_EQ(param(missed, "least"), 88);
  EXPECT_EQ(param(missed, "most"), 100);
  EXPECT_TRUE(pieces_of(mitred, "mitred-soaker").empty());
  const job::Plan open = planned("a23-courses-35-50-open");
  ASSERT_NE(finding(open, "join.courses_cannot_meet"), nullptr);
  EXPECT_EQ(finding(open, "join.courses_cannot_meet")->level, Level::doubt);
  EXPECT_FALSE(pieces_of(open, "valley").empty());
  const job::Plan near = planned("a23-courses-35-40");
  const job::Finding* met = finding(near, "join.courses_meet");
  ASSERT_NE(met, nullptr);
  EXPECT_EQ(met->level, Level::note);
  EXPECT_NEAR(param(met, "needed"), 89.2, 0.05);
  EXPECT_FALSE(pieces_of(near, "mitred-soaker").empty());
}

TEST(Joins, mitred_soakers_one_a_course) {
  const job::Plan plan = planned("hip-mitred");
  std::size_t placed = 0;
  for (const job::Piece* piece : pieces_of(plan, "mitred-soaker")) {
    EXPECT_GE(piece->width.in_mm(), 200);  // 100 each side: trade guides
    ASSERT_EQ(piece->net.folds.size(), 1U);
    EXPECT_FALSE(piece->net.folds[0].up);
    placed += piece->placements.size();
  }
  ASSERT_EQ(plan.set_out.size(), 2U);
  EXPECT_EQ(placed, static_cast<std::size_t>(plan.set_out[0].courses));
  // L - G + 25 up the slope; the line of a square hip at 40° is √(1 + cos² 40°) as long as going straight up.
  const auto soakers = pieces_of(plan, "mitred-soaker");
  const double cosine = std::cos(40 * std::acos(-1.0) / 180);
  const double up = 500 - plan.set_out[0].gauge.in_mm() + 25;
  EXPECT_NEAR(soakers[0]->length.in_mm(), up * std::sqrt(1 + cosine * cosine), 1e-6);
}

// What courses lie on comes before them: a valley's boards and lead before any course of either slope, its
// saddle when all of them lie; a mitred soaker with its own course.
TEST(Joins, lead_comes_before_the_courses_that_lie_on_it) {
  const job::Plan valley = planned("all-together");
  std::size_t first_course = 0;
  std::size_t last_course = 0;
  std::size_t last_lead = 0;
  std::size_t saddle = 0;
  for (std::size_t i = 0; i < valley.order_of_work.size(); ++i) {
    const job::WorkStep& step = valley.order_of_work[i];
    if (step.course >= -1 && step.slope == "rear") {
      if (first_course == 0) first_course = i;
      last_course = i;
    }
    if (step.step == "work.valley_boards" || step.step == "work.valley_next") last_lead = i;
    if (step.step == "work.valley_saddle") saddle = i;
  }
  EXPECT_GT(last_lead, 0U);
  EXPECT_LT(last_lead, first_course);
  EXPECT_GT(saddle, last_course);

  std::string bytes = sample::file_bytes("tests/jobs/cases/hip-mitred.json");
  const std::string eaves = "\"name\": \"rear\",";
  bytes.replace(bytes.find(eaves), eaves.size(),
                eaves + R"( "junctions": [ { "name": "wall", "kind": "side", "hand": "left",
                                   "wall": { "kind": "brick", "course": 75, "first_joint": 30 } } ],)");
  const auto hip = engine::plan_job(bytes);
  ASSERT_TRUE(hip);
  std::int64_t course = -1;
  std::size_t soakers = 0;
  for (const job::WorkStep& step : hip->plan.order_of_work) {
    if (step.course < 0) {
      continue;
    }
    EXPECT_GE(step.course, course) << step.text;
    course = step.course;
    soakers += step.step == "work.mitred_soaker";
  }
  EXPECT_GT(soakers, 10U);
}

TEST(Joins, no_mitred_valley_below_30) {
  const job::Plan plan = planned("mitred-valley-too-flat");
  const job::Finding* flat = finding(plan, "mitre.valley_too_flat");
  ASSERT_NE(flat, nullptr);
  EXPECT_EQ(flat->level, Level::wrong);
  EXPECT_TRUE(pieces_of(plan, "mitred-soaker").empty());
}

job::Slope slope_of(const char* name, double pitch, double faces, double rafter, double width) {
  job::Slope s;
  s.name = name;
  s.path = name;
  s.pitch = Angle::degrees(pitch);
  s.rafter = Length::mm(rafter);
  s.width = Length::mm(width);
  s.faces = Angle::degrees(faces);
  s.covering.kind = job::CoveringKind::plain_tile;
  s.covering.length = Length::mm(265);
  s.covering.width = Length::mm(165);
  s.covering.thickness = Length::mm(12);
  return s;
}

// A slope's directions in space: along its eaves to the right as seen facing it, up it, out of it.
struct Axes {
  geom::Vec3 right, up, out;
};
Axes axes_of(const job::Slope& s) {
  const double rad = std::acos(-1.0) / 180;
  const double b = s.faces->in_degrees() * rad;
  const double p = s.pitch.value.in_degrees() * rad;
  const geom::Vec3 uphill{-std::sin(b), -std::cos(b), 0};
  const geom::Vec3 right{uphill.y, -uphill.x, 0};
  const geom::Vec3 up = std::cos(p) * uphill + geom::Vec3{0, 0, std::sin(p)};
  return {right, up, geom::cross(right, up)};
}

geom::Vec3 in_space(const Axes& a, geom::Vec3 p) {
  return p.x * a.right + p.y * a.up + p.z * a.out;
}

struct Corners {
  std::vector<std::vector<geom::Vec3>> panels;  // in space, from the corner where the two eaves meet
};

Corners placed(const job::Piece& piece, const job::Placement& placement, const Axes& first, double corner_u) {
  Corners out;
  const auto panels = geom::split_into_panels(piece.net, piece.base_point);
  EXPECT_TRUE(panels);
  if (!panels) return out;
  const auto frames = geom::fold_panels(piece.net, *panels, placement.frame);
  for (std::size_t i = 0; i < panels->size(); ++i) {
    out.panels.emplace_back();
    for (const geom::GridPoint p : (*panels)[i].ring) {
      geom::Vec3 at = frames[i].at(geom::to_length(p.x).in_mm(), geom::to_length(p.y).in_mm());
      at.x -= corner_u;
      out.panels.back().push_back(in_space(first, at));
    }
  }
  return out;
}

double furthest(const std::vector<geom::Vec3>& points, const geom::Vec3& out) {
  double worst = 0;
  for (const geom::Vec3& p : points) worst = std::max(worst, std::abs(geom::dot(p, out)));
  return worst;
}

job::Survey random_survey(Generator& random, bool valley, bool mitred) {
  const auto within = [&](double low, double high) { return low + (high - low) * random.unit(); };
  job::Survey survey;
  const double first = within(0, 360);
  const double turned = (random.chance(0.5) ? 1 : -1) * within(40, 140);
  const double pitch = within(32, 65);
  const double second = mitred ? pitch + within(0, 3) : within(20, 65);
  survey.slopes = {slope_of("rear", pitch, first, within(1500, 6000), 6000),
                   slope_of("wing", second, std::fmod(first + turned + 360, 360), within(1500, 6000), 5000)};
  job::Join join;
  join.kind = valley ? job::JoinKind::valley : job::JoinKind::hip;
  join.slopes = {"rear", "wing"};
  if (mitred) join.detail = job::JoinDetail::mitred;
  survey.joins = {join};
  return survey;
}

std::optional<pieces::SlopePlan> plan_of(const job::Survey& survey, const practice::Pack& pack,
                                         bool with_courses) {
  std::vector<job::SlopeLayout> layouts;
  while (layouts.size() < survey.slopes.size()) {
    if (!with_courses) {
      layouts.emplace_back();
      continue;
    }
    auto layout = setout::lay_out(survey, layouts.size(), pack);
    if (!layout) return std::nullopt;
    layouts.push_back(std::move(*layout));
  }
  auto plans = pieces::plan_joins(survey, layouts, pack);
  if (plans.size() != 1) return std::nullopt;
  return std::move(plans.front());
}

// Boards 19 thick beside battens 25 thick (NHBC Standards 7.2.21; common practice, no source): the lead lies
// 6 below the battens' face. Where courses are laid, units' heads rest on that face, each a thickness lower
// for every gauge up from its tail.
constexpr double kBoards = 25 - 19;

// Folded, the sheet has one panel parallel to each slope, a valley's on its boards, and no other but the
// upturned edges, which stand square to them and go up; all its nets are sound.
TEST(Joins, lead_lies_on_both_slopes) {
  const auto pack = practice::Pack::built_in();
  ASSERT_TRUE(pack);
  Generator random(20240614);
  std::size_t valleys = 0;
  std::size_t soakers = 0;
  for (int i = 0; i < 10'000 && !HasFailure(); ++i) {
    const bool mitred = i % 10 == 0;
    const bool valley = !mitred || random.chance(0.5);
    const job::Survey survey = random_survey(random, valley, mitred);
    const auto plan = plan_of(survey, *pack, mitred);
    ASSERT_TRUE(plan);
    const auto line = job::join_line(survey, survey.joins[0]);
    ASSERT_TRUE(line);
    const Axes first = axes_of(survey.slopes[0]);
    const Axes second = axes_of(survey.slopes[1]);
    const double corner = line->sides[0].hand == job::Hand::left ? 0 : 6000;
    if (!mitred) {
      ASSERT_EQ(plan->pieces.size(), 2U);
    }
    for (const job::Piece& piece : plan->pieces) {
      ASSERT_FALSE(geom::fault_of(piece.net));
      for (const job::Figure& figure : piece.figures) ASSERT_EQ(sample::complaint_about(figure), "");
      const std::vector<std::size_t> some{0, piece.placements.size() - 1};
      for (const std::size_t n : some) {
        const Corners corners = placed(piece, piece.placements[n], first, corner);
        std::size_t on_first = 0;
        std::size_t on_second = 0;
        std::size_t edges = 0;
        const double depth = mitred ? 0 : kBoards;
        for (auto panel : corners.panels) {
          // Both slopes' planes, that much lower, pass through the point below the corner.
          for (geom::Vec3& p : panel) {
            const double k = depth / (1 + geom::dot(first.out, second.out));
            p = p + k * (first.out + second.out);
          }
          const double away_first = furthest(panel, first.out);
          const double away_second = furthest(panel, second.out);
          geom::Vec3 middle{};
          for (const geom::Vec3& p : panel) middle = middle + (1.0 / static_cast<double>(panel.size())) * p;
          // The slope that a panel lies on is the one that shows there: the higher in a valley, else the
          // lower; so it is never on the far side of the line.
          const double over = geom::dot(middle, second.out);
          const double over_first = geom::dot(middle, first.out);
          if (away_first < 0.1) {
            ++on_first;
            EXPECT_EQ(over > 0, valley);
          } else if (away_second < 0.1) {
            ++on_second;
            EXPECT_EQ(over_first > 0, valley);
          } else {
            ++edges;
            EXPECT_NEAR(std::min(away_first, away_second), 25, 0.1);
            EXPECT_GT(away_first < away_second ? over_first : over, 0);
          }
        }
        EXPECT_EQ(on_first, 1U);
        EXPECT_EQ(on_second, 1U);
        EXPECT_EQ(edges, piece.kind == "valley" ? 2U : 0U);
      }
      (piece.kind == "mitred-soaker" ? soakers : valleys) += 1;
    }
  }
  EXPECT_GT(valleys, 10'000U);
  EXPECT_GT(soakers, 500U);
}

// How far up the line a placed piece begins and ends, from the corner of the eaves.
struct Along {
  double from = 1e9;
  double to = -1e9;
};
Along along_line(const job::Piece& piece, const job::Placement& placement, const job::Survey& survey) {
  const Axes first = axes_of(survey.slopes[0]);
  const Axes second = axes_of(survey.slopes[1]);
  geom::Vec3 line = geom::unit(geom::cross(first.out, second.out));
  if (line.z < 0) line = -1.0 * line;
  const double turned = survey.slopes[1].faces->in_degrees() - survey.slopes[0].faces->in_degrees();
  const bool clockwise = std::fmod(turned + 720, 360) < 180;
  const bool at_right = clockwise == (survey.joins[0].kind == job::JoinKind::valley);
  Along out;
  const double corner = at_right ? survey.slopes[0].width.value.in_mm() : 0;
  for (const auto& panel : placed(piece, placement, first, corner).panels) {
    for (const geom::Vec3& p : panel) {
      out.from = std::min(out.from, geom::dot(p, line));
      out.to = std::max(out.to, geom::dot(p, line));
    }
  }
  return out;
}

TEST(Joins, lead_lies_where_it_should_along_the_line) {
  const auto pack = practice::Pack::built_in();
  ASSERT_TRUE(pack);
  Generator random(20240616);
  const double rad = std::acos(-1.0) / 180;
  for (int i = 0; i < 300 && !HasFailure(); ++i) {
    const bool mitred = i % 2 == 0;
    const job::Survey survey = random_survey(random, !mitred || random.chance(0.5), mitred);
    const auto plan = plan_of(survey, *pack, true);
    const auto line = job::join_line(survey, survey.joins[0]);
    ASSERT_TRUE(plan && line);
    if (!mitred) {
      const job::Piece& valley = plan->pieces.at(0);
      EXPECT_NEAR(along_line(valley, valley.placements.front(), survey).from, -50, 0.01);  // into the gutter
      const Along top = along_line(valley, valley.placements.back(), survey);
      EXPECT_NEAR(top.to, line->length.in_mm(), 0.01);
      const job::Piece& saddle = plan->pieces.at(1);
      const Along over = along_line(saddle, saddle.placements.front(), survey);
      const double lap = figure_value(valley.figures, "lap");
      EXPECT_GE(top.to - over.from, lap - 0.01);
      EXPECT_GE(over.to - top.to, lap - 0.01);
      continue;
    }
    // A soaker begins 3 above the tail of its own course and passes the head of the unit that it lies on by
    // 3 + 25 (common practice, no source).
    const auto layout = setout::lay_out(survey, 0, *pack);
    ASSERT_TRUE(layout);
    const double climb = std::sin(survey.slopes[0].pitch.value.in_degrees() * rad) /
                         std::sin(line->true_pitch.in_degrees() * rad);
    std::vector<bool> seen(layout->courses.size(), false);
    for (const job::Piece& piece : plan->pieces) {
      for (const job::Placement& placement : piece.placements) {
        const auto k = static_cast<std::size_t>(placement.course);
        ASSERT_LT(k, seen.size());
        EXPECT_FALSE(seen[k]);
        seen[k] = true;
        const Along there = along_line(piece, placement, survey);
        EXPECT_NEAR(there.from, (layout->courses[k].tail.in_mm() + 3) * climb, 0.01);
        const double head = layout->head_below(k).in_mm() + 3 + 25;
        EXPECT_NEAR(there.to, std::min(head * climb, line->length.in_mm()), 0.01);
      }
    }
  }
}

// The same roof in a looking-glass: bearings turn the other way, and every corner of every piece lies where
// its twin does, with u counted from the other end.
TEST(Joins, mirrored_roof_has_mirrored_lead) {
  const auto pack = practice::Pack::built_in();
  ASSERT_TRUE(pack);
  Generator random(20240615);
  for (int i = 0; i < 300 && !HasFailure(); ++i) {
    const bool mitred = i % 2 == 0;
    const bool valley = !mitred || random.chance(0.5);
    const job::Survey survey = random_survey(random, valley, mitred);
    job::Survey other = survey;
    for (job::Slope& slope : other.slopes) {
      slope.faces = Angle::degrees(std::fmod(360 - slope.faces->in_degrees(), 360));
    }
    const auto a = plan_of(survey, *pack, true);
    const auto b = plan_of(other, *pack, true);
    ASSERT_TRUE(a && b);
    ASSERT_EQ(a->pieces.size(), b->pieces.size());
    EXPECT_EQ(a->findings.size(), b->findings.size());
    const Axes flat{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    for (std::size_t p = 0; p < a->pieces.size(); ++p) {
      const job::Piece& one = a->pieces[p];
      const job::Piece& two = b->pieces[p];
      ASSERT_EQ(one.count, two.count);
      EXPECT_NEAR(one.length.in_mm(), two.length.in_mm(), 1e-6);
      EXPECT_NEAR(one.mass.in_kg(), two.mass.in_kg(), 1e-6);
      ASSERT_EQ(one.placements.size(), two.placements.size());
      const auto gather = [&](const job::Piece& piece, std::size_t n, bool turn) {
        std::vector<geom::Vec3> out;
        for (const auto& panel : placed(piece, piece.placements[n], flat, 0).panels) {
          for (geom::Vec3 q : panel) out.push_back(turn ? geom::Vec3{6000 - q.x, q.y, q.z} : q);
        }
        return out;
      };
      const auto here = gather(one, one.placements.size() - 1, false);
      const auto there = gather(two, two.placements.size() - 1, true);
      ASSERT_EQ(here.size(), there.size());
      for (const geom::Vec3& q : here) {
        double nearest = 1e9;
        for (const geom::Vec3& r : there) nearest = std::min(nearest, geom::length_of(q - r));
        EXPECT_LT(nearest, 0.01);
      }
    }
  }
}

// Published: a valley of true pitch 11° laps 390 both ways at its saddle (lead trade body's manual, as
// quoted).
TEST(Joins, saddle_laps_by_the_valley_both_ways) {
  const auto pack = practice::Pack::built_in();
  ASSERT_TRUE(pack);
  job::Survey survey;
  const double pitch =
      std::atan(std::sqrt(2.0) * std::tan(11 * std::acos(-1.0) / 180)) * 180 / std::acos(-1.0);
  survey.slopes = {slope_of("rear", pitch, 180, 4000, 6000), slope_of("wing", pitch, 270, 4000, 5000)};
  job::Join join;
  join.kind = job::JoinKind::valley;
  join.slopes = {"rear", "wing"};
  survey.joins = {join};
  const auto plan = plan_of(survey, *pack, false);
  ASSERT_TRUE(plan);
  ASSERT_EQ(plan->pieces.size(), 2U);
  EXPECT_NEAR(plan->pieces[1].length.in_mm() / 2, 390, 5);
  const geom::Vec3 head = plan->pieces[1].placements[0].frame.origin;
  EXPECT_GT(head.y, 0);
}

TEST(Joins, flat_valleys_are_doubtful_then_refused) {
  const auto pack = practice::Pack::built_in();
  ASSERT_TRUE(pack);
  const auto at = [&](double pitch) {
    job::Survey survey;
    survey.slopes = {slope_of("rear", pitch, 180, 4000, 6000), slope_of("wing", pitch, 270, 4000, 5000)};
    job::Join join;
    join.kind = job::JoinKind::valley;
    join.slopes = {"rear", "wing"};
    survey.joins = {join};
    auto plan = plan_of(survey, *pack, false);
    std::string out;
    if (plan) {
      for (const job::Finding& f : plan->findings) out += f.rule + " ";
      out += std::to_string(plan->pieces.size());
    }
    return out;
  };
  EXPECT_EQ(at(15.4), "2");                 // the line at 11.02
  EXPECT_EQ(at(15.3), "valley.flat 2");     // at 10.95
  EXPECT_EQ(at(8.2), "valley.flat 2");      // a lap of 740
  EXPECT_EQ(at(8.0), "valley.too_flat 0");  // a lap of 758, more than half a piece
}

}  // namespace
}  // namespace lapwright
