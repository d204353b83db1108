// Walls and units that a person may really type, each told from its sound neighbour.
#include <gtest/gtest.h>

#include <string>

#include "planned.h"
#include "planner.h"
#include "planning.h"

namespace {

namespace engine = lapwright::engine;

std::string job(const std::string& covering, const std::string& junctions) {
  return R"({"format": "lapwright-job/1", "slopes": [{"pitch": 40, "rafter": 3600, "width": 5200, "covering": )" +
         covering + R"(, "junctions": [)" + junctions + "]}]}";
}

const std::string kTile = R"({"kind": "plain-tile", "length": 265, "width": 165, "thickness": 12})";

std::string wall(const std::string& name, const std::string& rest) {
  return R"({"name": ")" + name + R"(", "kind": "side", )" + rest +
         R"(, "wall": {"kind": "brick", "course": 75, "first_joint": 30}})";
}

TEST(Walls, that_overlap_on_one_side_are_refused_by_name) {
  const auto planned =
      lapwright::sample::plan_job(job(kTile, wall("lower", R"("hand": "left", "to": 2000)") + "," +
                                                 wall("upper", R"("hand": "left", "from": 1900)")));
  ASSERT_FALSE(planned);
  ASSERT_EQ(planned.error().size(), 1U);
  EXPECT_EQ(planned.error().front().code, lapwright::FaultCode::contradiction);
  EXPECT_EQ(planned.error().front().path, "$.slopes[0].junctions[1]");
  EXPECT_NE(planned.error().front().read.find("\"lower\""), std::string::npos);
}

TEST(Walls, one_above_the_other_or_opposite_are_fine) {
  EXPECT_TRUE(lapwright::sample::plan_job(job(kTile, wall("lower", R"("hand": "left", "to": 2000)") + "," +
                                                         wall("upper", R"("hand": "left", "from": 2000)"))));
  EXPECT_TRUE(lapwright::sample::plan_job(
      job(kTile, wall("one", R"("hand": "left")") + "," + wall("other", R"("hand": "right")"))));
}

TEST(Walls, whose_gap_tapers_say_that_one_leg_serves_all) {
  const auto with_gap = [](const std::string& gap) {
    return lapwright::sample::plan_job(job(kTile, wall("w", R"("hand": "left", "gap": )" + gap)));
  };
  const auto tapering = with_gap(R"([{"at": 0, "width": 5}, {"at": 3600, "width": 40}])");
  ASSERT_TRUE(tapering);
  EXPECT_EQ(lapwright::sample::param(lapwright::sample::finding(tapering->plan, "soaker.leg_for_widest_gap"),
                                     "widest"),
            40);
  const auto even = with_gap("40");
  ASSERT_TRUE(even);
  EXPECT_EQ(lapwright::sample::finding(even->plan, "soaker.leg_for_widest_gap"), nullptr);
  // One size all the same: the widest place decides.
  EXPECT_EQ(tapering->plan.pieces.front().width, even->plan.pieces.front().width);
}

// 180 wide: half a slate is 90, and what is shared out at the sides can fall under 150 (common practice, no
// source).
TEST(Cuts, too_narrow_for_the_rule_are_said) {
  const auto slate = [](int width) {
    return R"({"kind": "slate", "length": 400, "width": )" + std::to_string(width) +
           R"(, "thickness": 6, "headlap": 90})";
  };
  bool narrow_found = false;
  bool wide_found = false;
  for (int room = 5000; room < 5200; room += 10) {
    const auto at = [&](int width) {
      std::string text = job(slate(width), wall("w", R"("hand": "left")"));
      text.replace(text.find("5200"), 4, std::to_string(room));
      auto planned = lapwright::sample::plan_job(text);
      EXPECT_TRUE(planned);
      return planned && lapwright::sample::finding(planned->plan, "bond.narrow_cut") != nullptr;
    };
    narrow_found = narrow_found || at(180);
    wide_found = wide_found || at(250);
  }
  EXPECT_TRUE(narrow_found);
  EXPECT_FALSE(wide_found);
}

TEST(Nails, of_hung_slates_are_none) {
  const auto planned = lapwright::sample::plan_job(job(
      R"({"kind": "slate", "length": 500, "width": 250, "thickness": 6, "headlap": 90, "nailing": "hung"})",
      wall("w", R"("hand": "left")")));
  ASSERT_TRUE(planned);
  for (const auto& row : planned->plan.rows) {
    EXPECT_FALSE(row.nailed);
    EXPECT_TRUE(row.nails_left_out.empty());
  }
  for (const auto& step : planned->plan.order_of_work) {
    EXPECT_EQ(step.text.find("nail both"), std::string::npos) << step.text;
  }
}

}  // namespace
