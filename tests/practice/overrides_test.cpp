#include <lapwright/practice/pack.h>

#include <gtest/gtest.h>

#include <limits>
#include <string>
#include <vector>

namespace {
using lapwright::Fault;
using lapwright::FaultCode;
using lapwright::Length;
using lapwright::Result;
using lapwright::job::Override;
using lapwright::job::Standing;
using lapwright::practice::Pack;
using lapwright::practice::Rule;

Pack built_in() {
  return Pack::built_in().value();
}

Override bare(const std::string& rule, double number) {
  Override wish;
  wish.rule = rule;
  wish.number = number;
  wish.is_bare = true;
  wish.spot = {7, 9};
  return wish;
}

Override with_unit(const std::string& rule, double mm) {
  Override wish = bare(rule, mm);
  wish.is_bare = false;
  wish.is_length_text = true;
  return wish;
}

Fault only_fault(const Result<Pack>& pack) {
  EXPECT_FALSE(pack.has_value());
  if (pack || pack.error().size() != 1) return {};
  return pack.error().front();
}

TEST(Overrides, bare_number_is_in_the_files_unit) {
  const Pack pack = built_in();
  EXPECT_EQ(pack.with_overrides({bare("soaker.upstand", 90)}, false).value().length("soaker.upstand"),
            Length::mm(90));
  EXPECT_EQ(pack.with_overrides({bare("soaker.upstand", 3.5)}, true).value().length("soaker.upstand"),
            Length::inches(3.5));
}

TEST(Overrides, length_that_names_its_unit_is_taken_as_it_is) {
  const Pack pack = built_in();
  EXPECT_EQ(pack.with_overrides({with_unit("soaker.upstand", 90)}, true).value().length("soaker.upstand"),
            Length::mm(90));
}

TEST(Overrides, inches_touch_only_lengths) {
  const Pack changed =
      built_in().with_overrides({bare("flashing.code", 5), bare("pitch.slate", 22.5)}, true).value();
  EXPECT_EQ(changed.number("flashing.code"), 5);
  EXPECT_EQ(changed.number("pitch.slate"), 22.5);
}

TEST(Overrides, remember_what_the_pack_says) {
  const Pack pack = built_in();
  const Pack changed = pack.with_overrides({bare("soaker.upstand", 90)}, false).value();
  const Rule& rule = changed.rule("soaker.upstand");
  EXPECT_TRUE(rule.overridden);
  EXPECT_EQ(rule.pack_value, 75);
  EXPECT_EQ(rule.source, "set by the job");
  EXPECT_EQ(rule.standing, Standing::measured);
  EXPECT_EQ(rule.least, 75);
  EXPECT_FALSE(pack.rule("soaker.upstand").overridden);
  for (const Rule& other : changed.rules()) {
    if (other.name == "soaker.upstand") continue;
    EXPECT_FALSE(other.overridden) << other.name;
    EXPECT_EQ(other.value, pack.number(other.name));
  }
}

TEST(Overrides, a_named_alternative_keeps_its_source) {
  const Pack changed =
      built_in()
          .with_overrides({bare("slate.hole_clearance", 4), bare("lap.rise_severe", 100)}, false)
          .value();
  EXPECT_EQ(changed.rule("slate.hole_clearance").source, "trade consultants' technical note");
  EXPECT_EQ(changed.rule("slate.hole_clearance").standing, Standing::guide);
  EXPECT_TRUE(changed.rule("slate.hole_clearance").overridden);
  // The pack's own value typed again is still from memory.
  EXPECT_EQ(changed.rule("lap.rise_severe").standing, Standing::memory);
}

TEST(Overrides, beyond_a_bound_is_accepted_for_the_planner_to_judge) {
  const Pack changed =
      built_in()
          .with_overrides({bare("flashing.piece_most", 1800), bare("soaker.leg_least", 60)}, false)
          .value();
  EXPECT_EQ(changed.length("flashing.piece_most"), Length::mm(1800));
  EXPECT_EQ(changed.rule("flashing.piece_most").most, 1500);
  EXPECT_EQ(changed.length("soaker.leg_least"), Length::mm(60));
}

TEST(Overrides, unknown_rule_offers_the_nearest) {
  for (const auto& [typed, meant] :
       std::vector<std::pair<std::string, std::string>>{{"soaker.upstnad", "soaker.upstand"},
                                                        {"soaker.head-allowance", "soaker.head_allowance"},
                                                        {"flashing.lap", "flashing.code"},
                                                        {"", "lap.rise"}}) {
    const Result<Pack> refused = built_in().with_overrides({bare(typed, 1)}, false);
    const Fault fault = only_fault(refused);
    EXPECT_EQ(fault.code, FaultCode::unknown_rule);
    EXPECT_EQ(fault.path, "$.practice[\"" + typed + "\"]");
    EXPECT_EQ(fault.spot.line, 7U);
    EXPECT_EQ(fault.spot.column, 9U);
    if (typed.size() > 12) {
      EXPECT_EQ(fault.mend, "did you mean " + meant + "?");
    }
    EXPECT_NE(fault.mend, "did you mean ?");
  }
}

TEST(Overrides, a_name_without_end_is_cut) {
  const Result<Pack> refused = built_in().with_overrides({bare(std::string(1'000'000, 'x'), 1)}, false);
  EXPECT_LT(to_line(only_fault(refused)).size(), 600U);
}

TEST(Overrides, length_for_a_rule_that_is_none_is_refused) {
  const Fault fault = only_fault(built_in().with_overrides({with_unit("flashing.code", 5)}, false));
  EXPECT_EQ(fault.code, FaultCode::wrong_type);
  EXPECT_EQ(fault.path, "$.practice[\"flashing.code\"]");
}

TEST(Overrides, values_that_no_roof_has_are_refused) {
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
  for (const double value : {-1.0, 0.0, 1e-300, 1e9, kInfinity, -kInfinity, kNan}) {
    const Fault fault = only_fault(built_in().with_overrides({bare("flashing.piece_most", value)}, false));
    EXPECT_EQ(fault.code, FaultCode::out_of_range) << value;
    EXPECT_NE(fault.accepted.find("1 to 100000 mm"), std::string::npos) << fault.accepted;
  }
  EXPECT_TRUE(built_in().with_overrides({bare("wall.gap", 0)}, false).has_value());
  EXPECT_FALSE(built_in().with_overrides({bare("wall.gap", -1)}, false).has_value());
}

TEST(Overrides, every_fault_is_said_at_once) {
  const Result<Pack> refused = built_in().with_overrides(
      {bare("nonsense", 1), bare("soaker.upstand", -5), bare("wall.gap", 3), bare("wall.gap", 4)}, false);
  ASSERT_FALSE(refused.has_value());
  ASSERT_EQ(refused.error().size(), 3U);
  EXPECT_EQ(refused.error()[0].code, FaultCode::unknown_rule);
  EXPECT_EQ(refused.error()[1].code, FaultCode::out_of_range);
  EXPECT_EQ(refused.error()[2].code, FaultCode::duplicate_key);
}
}  // namespace
