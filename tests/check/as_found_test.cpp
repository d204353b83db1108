// A roof that stands already: what was found on it is told at its course, with what it lets through, what has
// to come off and what goes on; noted leaks rank it; what lead cannot explain is named.
#include "examining.h"
#include "planned.h"
#include "planning.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace lapwright {
namespace {

using job::Existing;
using job::Gives;
using job::Suspect;

// A tiled slope that looks south, a brick wall at its left (west) end, 36 courses of 100.
std::string roof(const std::string& more) {
  return R"({"format": "lapwright-job/1", "site": {"exposure": "moderate"}, "slopes": [{"name": "rear", "pitch": 40,
  "rafter": 3600, "width": 5200, "faces": 180, "covering": {"kind": "plain-tile", "length": 265, "width": 165,
  "thickness": 12, "max_gauge": 100}, "junctions": [{"name": "house wall", "kind": "side", "hand": "left", "gap": 6,
  "wall": {"kind": "brick", "course": 75, "first_joint": 30}}]}], )" +
         more + "}";
}

Existing told(const std::string& job) {
  auto planned = engine::plan_job(job);
  EXPECT_TRUE(planned) << (planned ? "" : to_line(planned.error().front()));
  if (!planned) return {};
  engine::examine(*planned);
  EXPECT_TRUE(planned->plan.existing.has_value());
  return planned->plan.existing.value_or(Existing{});
}

const Suspect* at_course(const Existing& existing, std::int64_t course) {
  for (const Suspect& s : existing.suspects) {
    if (s.course == course) return &s;
  }
  return nullptr;
}

// A cover flashing dressed over plain tiles, no soakers, which leaks in wind: water gets sideways under it,
// so every course beside the wall comes off and soakers go in (judgement of people who do this work).
TEST(AsFound, cover_flashing_over_tiles_leaks_sideways) {
  const Existing existing = told(roof(
      R"("as_built": [{"kind": "detail", "junction": "house wall", "detail": "cover-flashing"}],
      "leaks": [{"when": "gale", "wind_from": 90, "rain": "heavy", "where": "house wall"}])"));
  ASSERT_EQ(existing.suspects.size(), 1U);
  const Suspect& s = existing.suspects.front();
  EXPECT_EQ(s.gives, Gives::sideways);
  // From geometry: the lead's cover less the gap, over what is rained on.
  EXPECT_LT(s.drift, 4);
  EXPECT_GT(s.drift, 1);
  EXPECT_GT(s.covering_drift, 35);
  EXPECT_EQ(s.strip_from, 1);
  EXPECT_EQ(s.strip_to, 36);
  std::int64_t soakers = 0;
  for (const Suspect::Fit& fit : s.fit) soakers += fit.kind == "soaker" ? fit.count : 0;
  EXPECT_EQ(soakers, 36);
  ASSERT_EQ(s.leaks.size(), 1U);
  EXPECT_TRUE(existing.unexplained.empty());
}

// A nail through one soaker, another left out, a third 30 short: each at its course.
TEST(AsFound, three_faults_are_each_found_at_their_course) {
  const Existing existing = told(roof(R"("as_built": [
      {"kind": "pierced", "junction": "house wall", "piece": "soaker", "course": 20, "across": 40, "up": 60},
      {"kind": "missing", "junction": "house wall", "piece": "soaker", "course": 12},
      {"kind": "short", "junction": "house wall", "piece": "soaker", "course": 7, "by": 55}])"));
  ASSERT_EQ(existing.suspects.size(), 3U);
  const Suspect* missing = at_course(existing, 12);
  ASSERT_NE(missing, nullptr);
  EXPECT_EQ(missing->gives, Gives::any_rain);
  EXPECT_EQ(missing, existing.suspects.data());  // the mildest weather first
  EXPECT_NEAR(missing->s, 1100, 270);
  ASSERT_EQ(missing->fit.size(), 1U);
  EXPECT_EQ(missing->fit.front().count, 1);
  // The soaker lies under its own course and the next; their units come off.
  EXPECT_EQ(missing->strip_from, 12);
  EXPECT_GE(missing->strip_to, 13);
  EXPECT_LE(missing->strip_to, 14);

  // 25 of the head lie past the unit's own: 30 of the lap are lost.
  const Suspect* cut = at_course(existing, 7);
  ASSERT_NE(cut, nullptr);
  EXPECT_EQ(cut->gives, Gives::driven);
  EXPECT_NEAR(cut->climb, 34, 3);
  EXPECT_GT(cut->wind, 10);

  const Suspect* pierced = at_course(existing, 20);
  ASSERT_NE(pierced, nullptr);
  EXPECT_EQ(pierced->found, "pierced");
  EXPECT_NE(pierced->gives, Gives::little);
  EXPECT_LT(pierced->climb, 62);
  // From the lowest up with the hose.
  EXPECT_EQ(cut->hose, 1);
  EXPECT_EQ(missing->hose, 2);
  EXPECT_EQ(pierced->hose, 3);
}

TEST(AsFound, wind_and_rain_rank_the_suspects) {
  const std::string found = R"("as_built": [
      {"kind": "short", "junction": "house wall", "piece": "soaker", "course": 7, "by": 55},
      {"kind": "loose", "junction": "house wall", "piece": "step-flashing", "number": 2}], "leaks": [)";
  // The wall stands at the west end and looks east: an east wind wets it, a south wind drives up the slope.
  const Existing south = told(roof(found + R"({"when": "south", "wind_from": 180, "rain": "heavy"}])"));
  ASSERT_EQ(south.suspects.size(), 2U);
  EXPECT_EQ(south.suspects.front().found, "short");
  const Existing east = told(roof(found + R"({"when": "east", "wind_from": 80, "rain": "heavy"}])"));
  EXPECT_EQ(east.suspects.front().found, "loose");
  EXPECT_EQ(east.suspects.front().gives, Gives::rain_on_wall);
}

TEST(AsFound, what_the_lead_cannot_explain_is_named) {
  const Existing existing = told(roof(R"("leaks": [
      {"when": "frost", "rain": "none"}, {"when": "storm", "rain": "heavy", "where": "house wall"}])"));
  EXPECT_TRUE(existing.suspects.empty());
  ASSERT_EQ(existing.unexplained.size(), 2U);
  EXPECT_EQ(existing.unexplained[0].causes, std::vector<std::string>{"condensation"});
  const auto& causes = existing.unexplained[1].causes;
  EXPECT_NE(std::find(causes.begin(), causes.end(), "wall"), causes.end());
  EXPECT_NE(std::find(causes.begin(), causes.end(), "gutter"), causes.end());
  EXPECT_FALSE(existing.unexplained[1].text.empty());
}

TEST(AsFound, a_line_that_speaks_of_nothing_is_said) {
  const Existing existing = told(roof(
      R"("as_built": [{"kind": "missing", "junction": "house wall", "piece": "soaker", "course": 80}])"));
  EXPECT_TRUE(existing.suspects.empty());
  EXPECT_TRUE(std::any_of(existing.findings.begin(), existing.findings.end(),
                          [](const job::Finding& f) { return f.rule == "as_built.nothing_there"; }));
}

// Handmade tiles, 13 thick give or take 3, camber 8 give or take 4. An upstand of 75 always falls short of 65
// proud of them: at the thinnest 75 − (10 + 4) = 61. One of 86 is even odds: 86 − 65 is the middle of
// thickness and camber. At 93 it takes the thickest unit and the shortest cut. From geometry.
TEST(Odds, an_upstand_of_75_falls_short_on_cambered_tiles) {
  const auto chance = [](int high) {
    const std::string job =
        R"({"format": "lapwright-job/1", "site": {"exposure": "moderate"}, "slopes": [{"name": "rear", "pitch": 45,
  "rafter": 1500, "width": 3000, "covering": {"kind": "plain-tile", "length": 265, "width": 165, "thickness": [13, 3],
  "camber": [8, 4], "made": "hand"}, "junctions": [{"name": "wall", "kind": "side", "hand": "left",
  "wall": {"first_joint": 30}}]}], "as_built": [{"kind": "low", "junction": "wall", "piece": "soaker", "by": )" +
        std::to_string(high) + "}]}";
    auto planned = engine::plan_job(job);
    EXPECT_TRUE(planned);
    if (!planned) return job::Odds{};
    engine::examine(*planned, {.odds = true});
    for (const job::Odds& o : planned->plan.odds) {
      if (o.rule == "check.proud") return o;
    }
    return job::Odds{};
  };
  EXPECT_EQ(chance(75).chance, 1);
  const job::Odds even = chance(86);
  EXPECT_GT(even.chance, 0.4);
  EXPECT_LT(even.chance, 0.95);  // the lowest of fifteen pieces counts, each cut by hand
  EXPECT_EQ(even.matters, "camber");
  EXPECT_LT(chance(93).chance, 0.1);
  EXPECT_EQ(chance(86).chance, even.chance);  // the same every time
}

}  // namespace
}  // namespace lapwright
