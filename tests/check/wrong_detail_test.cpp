// Lead laid over double-lap units because somebody insists: judged from its placed shapes to leak sideways,
// from the drift that two earlier trials of the model gave for the same run (within a degree), and drawn. A
// sound plan is silent.
#include "planned.h"
#include "planning.h"

#include <lapwright/base/trig.h>
#include <lapwright/check/examine.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace lapwright {
namespace {

struct Seen {
  check::Examined examined;
  const job::Finding* sideways = nullptr;
};

// The fascia (50) and what laps the top edge (75) take off the run that is rained on.
std::string forced(const char* covering, double run) {
  return R"({"format": "lapwright-job/1", "site": {"exposure": "moderate"}, "practice": {"cover.width": 150},
  "slopes": [{"name": "rear", "pitch": 40, "rafter": )" +
         std::to_string(run + 125) + R"(, "width": 4000, "covering": )" + covering +
         R"(, "junctions": [{"name": "wall", "kind": "side", "hand": "left", "gap": 6, "detail": "cover-flashing",
  "wall": {"kind": "brick", "course": 75, "first_joint": 30}}]}]})";
}

constexpr const char* kTile =
    R"({"kind": "plain-tile", "length": 265, "width": 165, "thickness": 12, "joint": 3, "max_gauge": 100})";
constexpr const char* kSlate =
    R"({"kind": "slate", "length": 500, "width": 250, "thickness": 6, "joint": 5, "headlap": 91})";

Seen seen(const std::string& job) {
  Seen out;
  const auto planned = engine::plan_job(job);
  EXPECT_TRUE(planned);
  if (!planned) return out;
  check::Options options;
  options.draw = true;
  out.examined =
      check::examine(check::place(planned->survey, planned->plan), planned->survey, planned->pack, options);
  for (const job::Finding& f : out.examined.findings) {
    if (f.rule == "check.leaks_sideways") out.sideways = &f;
  }
  return out;
}

TEST(WrongDetail, cover_flashing_over_units_stands_what_the_trials_gave) {
  struct Case {
    const char* covering;
    double run;
    double drift;
  };
  for (const Case& c : {Case{kTile, 1000, 8.3}, Case{kTile, 5000, 1.7}, Case{kSlate, 2045, 4.1}}) {
    const Seen s = seen(forced(c.covering, c.run));
    ASSERT_NE(s.sideways, nullptr) << c.run;
    EXPECT_EQ(s.sideways->level, job::Level::wrong);
    EXPECT_NEAR(*s.sideways->value, c.drift, 1) << c.run;
    // From geometry: the cover past the gap, over the run.
    EXPECT_NEAR(*s.sideways->value, atan_deg(144 / c.run), 0.5) << c.run;
    const job::Frontier& f = s.examined.proof.frontiers.front();
    EXPECT_NEAR(f.run, c.run, 1);
    EXPECT_FALSE(f.holds);
    // Drawn: the way of the first leak ends beside the wall, under the lead.
    ASSERT_EQ(s.examined.proof.traces.size(), 1U);
    const job::Trace& trace = s.examined.proof.traces.front();
    ASSERT_GT(trace.path.size(), 1U);
    EXPECT_GE(trace.path.front().u, trace.path.back().u);
    EXPECT_LT(trace.path.back().u, 10);
    EXPECT_FALSE(trace.lead.empty());
    EXPECT_FALSE(trace.wet_below.empty());
  }
}

TEST(WrongDetail, a_sound_plan_is_silent) {
  const auto planned = engine::plan_job(sample::file_bytes("tests/jobs/good/barn.json"));
  ASSERT_TRUE(planned);
  const auto examined =
      check::examine(check::place(planned->survey, planned->plan), planned->survey, planned->pack);
  for (const job::Finding& f : examined.findings) {
    EXPECT_EQ(f.level, job::Level::note)
        << f.where << ": " << planned->catalogue.say("finding." + f.rule, f.params, job::ShownIn::mm);
  }
}

}  // namespace
}  // namespace lapwright
