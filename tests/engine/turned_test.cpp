// A house turned about an upright axis, or seen in a mirror, takes the same lead.
#include "judge.h"
#include "planned.h"
#include "planner.h"
#include "random_job.h"

#include <lapwright/engine/engine.h>

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>
#include <string>
#include <tuple>
#include <vector>

namespace lapwright {
namespace {

// Nets lie on a grid of 1 µm: a length that falls half-way may go to either side.
bool near(geom::GridPoint a, geom::GridPoint b) {
  return std::abs(a.x - b.x) <= 2 && std::abs(a.y - b.y) <= 2;
}

bool near(geom::Vec3 a, geom::Vec3 b) {
  return geom::length_of(a - b) < 1e-6;
}

std::string difference(const job::Piece& a, const job::Piece& b) {
  const std::string which = a.mark + ", " + a.kind + " of " + a.junction + " " + a.face + ": ";
  if (a.mark != b.mark || a.kind != b.kind || a.slope != b.slope || a.face != b.face)
    return which + "another";
  if (a.count != b.count || a.code != b.code || a.metal != b.metal) return which + "count or sheet";
  if (std::fabs((a.length - b.length).in_mm()) > 1e-6 || std::fabs((a.width - b.width).in_mm()) > 1e-6)
    return which + "size";
  if (std::fabs(a.mass.in_kg() - b.mass.in_kg()) > 1e-6) return which + "mass";
  if (a.net.outline.size() != b.net.outline.size() || a.net.folds.size() != b.net.folds.size() ||
      a.net.holes.size() != b.net.holes.size() || a.placements.size() != b.placements.size())
    return which + "shape";
  for (std::size_t i = 0; i < a.net.outline.size(); ++i)
    if (!near(a.net.outline[i], b.net.outline[i])) return which + "outline";
  for (std::size_t i = 0; i < a.net.folds.size(); ++i) {
    const geom::Fold& f = a.net.folds[i];
    const geom::Fold& g = b.net.folds[i];
    if (!near(f.from, g.from) || !near(f.to, g.to) || f.up != g.up ||
        std::fabs((f.angle - g.angle).in_degrees()) > 1e-9)
      return which + "fold";
  }
  for (std::size_t i = 0; i < a.placements.size(); ++i) {
    const geom::Frame& f = a.placements[i].frame;
    const geom::Frame& g = b.placements[i].frame;
    if (!near(f.origin, g.origin) || !near(f.x_axis, g.x_axis) || !near(f.y_axis, g.y_axis))
      return which + "place";
  }
  return {};
}

std::string difference(const job::Plan& a, const job::Plan& b) {
  if (a.pieces.size() != b.pieces.size()) return "number of pieces";
  for (std::size_t i = 0; i < a.pieces.size(); ++i) {
    const std::string d = difference(a.pieces[i], b.pieces[i]);
    if (!d.empty()) return d;
  }
  if (a.findings.size() != b.findings.size()) return "number of findings";
  for (std::size_t i = 0; i < a.findings.size(); ++i)
    if (a.findings[i].rule != b.findings[i].rule || a.findings[i].where != b.findings[i].where)
      return "finding " + a.findings[i].rule;
  if (a.order_of_work.size() != b.order_of_work.size()) return "steps of work";
  for (std::size_t i = 0; i < a.order_of_work.size(); ++i)
    if (a.order_of_work[i].step != b.order_of_work[i].step ||
        a.order_of_work[i].mark != b.order_of_work[i].mark)
      return "step " + a.order_of_work[i].step;
  if (a.rows.size() != b.rows.size()) return "rows";
  for (std::size_t i = 0; i < a.rows.size(); ++i)
    if (std::fabs((a.rows[i].from - b.rows[i].from).in_mm()) > 1e-6 ||
        a.rows[i].widths.size() != b.rows[i].widths.size())
      return "row " + std::to_string(i);
  return {};
}

TEST(Turned, kept_jobs_take_the_same_lead) {
  std::size_t turned = 0;
  for (const std::string& file : sample::job_files({"tests/jobs/good", "tests/jobs/cases", "data/demo"})) {
    const std::string bytes = sample::file_bytes(file);
    if (bytes.find("\"faces\"") == std::string::npos) continue;
    const auto planned = sample::plan_job(bytes);
    if (!planned) continue;
    for (const double degrees : {0.5, 37.25, 90.0, 123.0, 180.0, 270.0, 359.5}) {
      const auto other = sample::plan_job(sample::turned_job(bytes, degrees));
      ASSERT_TRUE(other) << file;
      EXPECT_EQ(difference(planned->plan, other->plan), "") << file << " turned by " << degrees;
      ++turned;
    }
  }
  EXPECT_GT(turned, 50U);
}

#ifdef __SANITIZE_ADDRESS__
constexpr int kHouses = 100;  // the plain build looks at the rest
constexpr int kSeenMoreThan = 5;
#else
constexpr int kHouses = 1000;
constexpr int kSeenMoreThan = 100;
#endif

TEST(Turned, random_houses_take_the_same_lead) {
  Generator random(20261128);
  std::map<std::string, std::int64_t> seen;
  for (int i = 0; i < kHouses && !HasFailure(); ++i) {
    const std::string house = sample::random_house(random);
    const auto planned = sample::plan_job(house);
    ASSERT_TRUE(planned) << house;
    const auto turned =
        sample::plan_job(sample::turned_job(house, static_cast<double>(random.between(1, 359))));
    ASSERT_TRUE(turned) << house;
    EXPECT_EQ(difference(planned->plan, turned->plan), "") << house;
    const auto mirrored = sample::plan_job(sample::mirrored_job(house));
    ASSERT_TRUE(mirrored) << house;
    EXPECT_EQ(sample::mirror_complaint({planned->survey, planned->pack, planned->plan}, mirrored->plan), "")
        << house;
    for (const job::Piece& piece : planned->plan.pieces) seen[piece.kind] += piece.count;
  }
  for (const char* kind : {"valley", "valley-saddle", "mitred-soaker", "back-gutter", "pipe-slate", "apron"})
    EXPECT_GT(seen[kind], kSeenMoreThan) << kind;
}

// Two walls, a stack on the slope, a stack through the ridge, a pipe and a valley, in one call.
TEST(Everything, in_one_job_is_marked_weighed_drawn_and_ordered) {
  const std::string bytes = sample::file_bytes("tests/jobs/cases/all-together.json");
  const auto planned = sample::plan_job(bytes);
  ASSERT_TRUE(planned);
  const job::Plan& plan = planned->plan;
  const engine::Outcome outcome = engine::plan({bytes, true});
  EXPECT_EQ(outcome.status, engine::Status::done);
  std::string drawn;
  for (const auto& document : outcome.documents) {
    if (document.name.ends_with(".svg")) drawn += document.bytes;
  }
  std::set<std::string> worked;
  for (const job::WorkStep& step : plan.order_of_work) worked.insert(step.mark);
  std::set<std::string> kinds;
  for (const job::Piece& piece : plan.pieces) {
    kinds.insert(piece.kind);
    EXPECT_FALSE(piece.mark.empty());
    EXPECT_GT(piece.mass.in_kg(), 0) << piece.mark;
    EXPECT_EQ(piece.count, static_cast<std::int64_t>(piece.placements.size())) << piece.mark;
    EXPECT_EQ(worked.count(piece.mark), 1U) << piece.mark;
    EXPECT_NE(drawn.find(">" + piece.mark + "<"), std::string::npos) << piece.mark;
  }
  for (const char* kind : {"soaker", "step-flashing", "apron", "back-gutter", "cover-flashing", "saddle",
                           "pipe-slate", "pipe-sleeve", "valley", "valley-saddle"})
    EXPECT_EQ(kinds.count(kind), 1U) << kind;

  const auto mirrored = sample::plan_job(sample::mirrored_job(bytes));
  ASSERT_TRUE(mirrored);
  EXPECT_EQ(sample::mirror_complaint({planned->survey, planned->pack, plan}, mirrored->plan), "");
  // The same list: kind, sheet, sizes to the nearest micron and weight, however many of each.
  const auto list_of = [](const job::Plan& p) {
    std::map<std::tuple<std::string, std::int64_t, std::int64_t, std::int64_t, std::int64_t>, std::int64_t>
        out;
    for (const job::Piece& piece : p.pieces) {
      const auto whole = [](double v) { return static_cast<std::int64_t>(std::llround(v * 100)); };
      out[{piece.kind, piece.code.value_or(0), whole(piece.length.in_mm()), whole(piece.width.in_mm()),
           whole(piece.mass.in_kg() * 10)}] += piece.count;
    }
    return out;
  };
  EXPECT_EQ(list_of(plan), list_of(mirrored->plan));
}

}  // namespace
}  // namespace lapwright
