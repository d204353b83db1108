#include <lapwright/practice/pack.h>

#include <lapwright/base/trig.h>

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

namespace {
using lapwright::Length;
using lapwright::Result;
using lapwright::job::Standing;
using lapwright::practice::LeadCode;
using lapwright::practice::Pack;
using lapwright::practice::Rule;

Pack built_in() {
  Result<Pack> pack = Pack::built_in();
  EXPECT_TRUE(pack.has_value());
  if (!pack) {
    for (const auto& fault : pack.error()) ADD_FAILURE() << to_line(fault);
    return {};
  }
  return *pack;
}

TEST(Pack, is_sound_and_named) {
  const Pack pack = built_in();
  EXPECT_EQ(pack.name(), "uk-common");
  EXPECT_GT(pack.rules().size(), 50U);
}

TEST(Pack, every_rule_says_where_it_comes_from) {
  const Pack pack = built_in();
  for (const Rule& rule : pack.rules()) {
    EXPECT_FALSE(rule.source.empty()) << rule.name;
    EXPECT_FALSE(rule.note.empty()) << rule.name;
    EXPECT_NE(rule.standing, Standing::measured) << rule.name;
    EXPECT_FALSE(rule.overridden) << rule.name;
    EXPECT_EQ(rule.pack_value, rule.value) << rule.name;
    // A remembered number names no book, and no other number passes for memory.
    EXPECT_EQ(rule.standing == Standing::memory, rule.source == "from memory, not seen in print")
        << rule.name;
    if (rule.least || rule.most) {
      EXPECT_FALSE(rule.bound_source.empty()) << rule.name;
    }
    for (const auto& other : rule.alternatives) {
      EXPECT_FALSE(other.source.empty()) << rule.name;
      EXPECT_NE(other.value, rule.value) << rule.name << ": an alternative that is none";
    }
  }
}

TEST(Pack, rules_are_sorted_and_found_by_name) {
  const Pack pack = built_in();
  for (std::size_t i = 0; i < pack.rules().size(); ++i) {
    const std::string& name = pack.rules()[i].name;
    if (i > 0) {
      EXPECT_LT(pack.rules()[i - 1].name, name);
    }
    ASSERT_NE(pack.find(name), nullptr);
    EXPECT_EQ(pack.find(name)->name, name);
  }
  EXPECT_EQ(pack.find("soaker"), nullptr);
  EXPECT_EQ(pack.find(""), nullptr);
  EXPECT_EQ(pack.length("soaker.upstand"), Length::mm(75));
  EXPECT_EQ(pack.number("bond.unit_and_half"), 1.5);
}

// Values that have a published source; a change of the data file must be meant.
TEST(Pack, keeps_published_values) {
  const Pack pack = built_in();
  struct Published {
    const char* rule;
    double value;
    const char* source;
  };
  const std::vector<Published> all{
      {"flashing.piece_most", 1500, "NHBC Standards 7.2.20"},
      {"flashing.lap_along_wall", 100, "NHBC Standards 7.2.20"},
      {"lead.coat_over", 50, "NHBC Standards 7.2.20"},
      {"flashing.code", 4, "NHBC Standards 7.2"},
      {"flashing.code_exposed", 5, "NHBC Standards 7.2"},
      {"soaker.code", 3, "NHBC Standards 7.2"},
      {"headlap.slate_least", 54, "NHBC Standards 7.2"},
      {"pitch.slate", 20, "NHBC Standards 7.2"},
      {"pitch.plain_tile_machine", 35, "NHBC Standards 7.2; trade guides"},
      {"pitch.plain_tile_hand", 40, "NHBC Standards 7.2; trade guides"},
      {"headlap.plain_tile", 65, "NHBC Standards 7.2; trade guides"},
      {"headlap.plain_tile_severe", 75, "NHBC Standards 7.2; trade guides"},
      {"bond.sidelap_tile", 55, "tile trade association"},
      {"lap.rise", 75, "lead trade body's manual, as quoted"},
  };
  for (const Published& row : all) {
    ASSERT_NE(pack.find(row.rule), nullptr) << row.rule;
    EXPECT_EQ(pack.number(row.rule), row.value) << row.rule;
    EXPECT_EQ(pack.rule(row.rule).source, row.source);
    EXPECT_EQ(pack.rule(row.rule).standing, Standing::guide) << row.rule;
  }
}

TEST(Pack, forbids_where_the_trade_forbids) {
  const Pack pack = built_in();
  for (const char* const name :
       {"step.turn_in", "flashing.lap_along_wall", "soaker.leg_least", "soaker.upstand", "chase.height"}) {
    EXPECT_TRUE(pack.rule(name).least.has_value()) << name;
  }
  EXPECT_EQ(pack.rule("flashing.piece_most").most, 1500);
  EXPECT_EQ(pack.rule("wedge.spacing").most, 450);
}

// Geometry: a sheet's mass is its thickness times the density, for all six codes as usually printed (BS EN
// 12588 classes, second-hand), which round to 0.01.
TEST(LeadCodes, mass_is_thickness_times_density) {
  const Pack pack = built_in();
  ASSERT_EQ(pack.lead_codes().size(), 6U);
  const double density = pack.number("lead.density");
  for (const LeadCode& lead : pack.lead_codes()) {
    EXPECT_NEAR(lead.thickness.in_mm() * density, lead.kg_per_m2, 0.01 / 2 + 1e-9) << "code " << lead.code;
    EXPECT_EQ(lead.standing, Standing::standard);
    EXPECT_FALSE(lead.source.empty());
  }
  EXPECT_EQ(pack.lead(3).colour, "green");
  EXPECT_EQ(pack.lead(8).thickness, Length::mm(3.55));
  EXPECT_FALSE(pack.has_lead(2));
  EXPECT_FALSE(pack.has_lead(9));
}

TEST(SoakerMetals, have_their_thickness) {
  const Pack pack = built_in();
  ASSERT_NE(pack.soaker_metal("zinc"), nullptr);
  EXPECT_EQ(pack.soaker_metal("zinc")->thickness, Length::mm(0.8));
  EXPECT_EQ(pack.soaker_metal("copper")->thickness, Length::mm(0.55));
  EXPECT_EQ(pack.soaker_metal("aluminium")->thickness, Length::mm(0.7));
  EXPECT_EQ(pack.soaker_metal("gold"), nullptr);
}

TEST(StripWidths, next_is_the_least_that_serves) {
  const Pack pack = built_in();
  EXPECT_EQ(pack.next_strip_width(Length::mm(1)), Length::mm(150));
  EXPECT_EQ(pack.next_strip_width(Length::mm(150)), Length::mm(150));
  EXPECT_EQ(pack.next_strip_width(Length::mm(150.001)), Length::mm(180));
  EXPECT_EQ(pack.next_strip_width(Length::mm(265)), Length::mm(270));
  EXPECT_EQ(pack.next_strip_width(Length::mm(475)), Length::mm(480));
  EXPECT_EQ(pack.next_strip_width(Length::mm(600)), Length::mm(600));
  EXPECT_EQ(pack.next_strip_width(Length::mm(601)), std::nullopt);
  ASSERT_EQ(pack.strip_widths().size(), 16U);
  for (std::size_t i = 1; i < pack.strip_widths().size(); ++i) {
    EXPECT_EQ(pack.strip_widths()[i] - pack.strip_widths()[i - 1], Length::mm(30));
  }
  EXPECT_EQ(pack.strip_widths_in_some_yards(),
            (std::vector<Length>{Length::mm(225), Length::mm(375), Length::mm(1000)}));
}

// The lead trade body's manual, as quoted, prints laps rounded to 10: 150 at 30° and steeper, 200 at 22°, 250
// at 17.5°, 290 at 15°, 390 at 11°.
TEST(LapDownASlope, rise_over_sine_gives_the_published_laps) {
  const Pack pack = built_in();
  const double rise = pack.number("lap.rise");
  const double least = pack.number("lap.least");
  struct Published {
    double pitch;
    double lap;
  };
  for (const auto& [pitch, lap] : std::vector<Published>{{22, 200}, {17.5, 250}, {15, 290}, {11, 390}}) {
    EXPECT_NEAR(std::max(least, rise / lapwright::sin_deg(pitch)), lap, 5) << pitch;
  }
  for (const double pitch : {30.0, 35.0, 45.0, 60.0, 90.0}) {
    EXPECT_DOUBLE_EQ(std::max(least, rise / lapwright::sin_deg(pitch)), 150) << pitch;
  }
  EXPECT_DOUBLE_EQ(rise / lapwright::sin_deg(30), least);
}
}  // namespace
