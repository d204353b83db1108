// Headlaps for slates against two suppliers' printed tables that say they follow BS 5534, a merchant's list
// and a quick list seen on site. "No" is a cell that the table marks as not permitted.
#include <lapwright/practice/pack.h>

#include <lapwright/base/trig.h>

#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <vector>

namespace {
using lapwright::Angle;
using lapwright::Length;
using lapwright::job::Exposure;
using lapwright::job::Standing;
using lapwright::practice::default_headlap;
using lapwright::practice::HeadlapAnswer;
using lapwright::practice::Pack;

Pack built_in() {
  return Pack::built_in().value();
}

constexpr std::optional<double> kNo = std::nullopt;

struct PrintedRow {
  double length;
  double width;
  std::vector<std::optional<double>> headlaps;
};

const HeadlapAnswer* from(const std::vector<HeadlapAnswer>& answers, const std::string& table) {
  for (const HeadlapAnswer& answer : answers) {
    if (answer.table == table) return &answer;
  }
  return nullptr;
}

void expect_printed(const std::string& table, Exposure exposure, const std::vector<double>& pitches,
                    const std::vector<PrintedRow>& rows) {
  const Pack pack = built_in();
  for (const PrintedRow& row : rows) {
    ASSERT_EQ(row.headlaps.size(), pitches.size());
    for (std::size_t i = 0; i < pitches.size(); ++i) {
      SCOPED_TRACE(testing::Message() << row.length << " by " << row.width << " at " << pitches[i]);
      const auto answers = pack.slate_headlaps(Length::mm(row.length), Length::mm(row.width),
                                               Angle::degrees(pitches[i]), exposure);
      const HeadlapAnswer* answer = from(answers, table);
      ASSERT_NE(answer, nullptr);
      ASSERT_EQ(answer->headlap.has_value(), row.headlaps[i].has_value());
      EXPECT_FALSE(answer->size_was_between);
      EXPECT_FALSE(answer->interpolated);
      EXPECT_FALSE(answer->source.empty());
      if (!answer->headlap) {
        ASSERT_TRUE(answer->first_pitch.has_value());
        EXPECT_GT(*answer->first_pitch, pitches[i]);
        continue;
      }
      EXPECT_EQ(*answer->headlap, Length::mm(*row.headlaps[i]));
      EXPECT_EQ(answer->below, pitches[i]);
      EXPECT_EQ(answer->above, pitches[i]);
    }
  }
}

const std::vector<double> kModeratePitches{20, 22.5, 25, 27.5, 30, 35, 40, 45, 85};
const std::string kModerate = "supplier tables, sheltered and moderate";

TEST(Headlap, moderate_and_sheltered_as_printed) {
  const std::vector<PrintedRow> rows{{600, 300, {kNo, kNo, 95, 85, 80, 70, 60, 55, 50}},
                                     {500, 300, {115, 105, 95, 85, 80, 70, 60, 55, 50}},
                                     {500, 250, {kNo, kNo, 95, 85, 80, 70, 60, 55, 50}},
                                     {450, 220, {kNo, kNo, kNo, kNo, 80, 70, 60, 55, 50}},
                                     {400, 250, {kNo, kNo, kNo, kNo, 80, 70, 60, 55, 50}},
                                     {400, 200, {kNo, kNo, kNo, kNo, 80, 70, 60, 55, 50}},
                                     {350, 200, {kNo, kNo, kNo, kNo, 80, 70, 60, 55, 50}},
                                     {300, 200, {kNo, kNo, kNo, kNo, 80, 70, 60, 55, 50}}};
  expect_printed(kModerate, Exposure::moderate, kModeratePitches, rows);
  expect_printed(kModerate, Exposure::sheltered, kModeratePitches, rows);
}

TEST(Headlap, severe_as_table_a_prints_it) {
  expect_printed("supplier table A, severe", Exposure::severe, {22.5, 25, 27.5, 30, 35, 40, 45},
                 {{600, 300, {kNo, kNo, kNo, 120, 110, 90, 85}},
                  {500, 300, {130, 120, 110, 100, 90, 80, 70}},
                  {500, 250, {kNo, kNo, kNo, 120, 105, 100, 95}},
                  {450, 220, {kNo, kNo, kNo, 130, 125, 110, 110}},
                  {400, 250, {kNo, kNo, kNo, 100, 90, 80, 70}},
                  {400, 220, {kNo, kNo, kNo, 100, 90, 80, 70}},
                  {350, 200, {kNo, kNo, kNo, 100, 90, 80, 70}},
                  {300, 200, {kNo, kNo, kNo, 100, 90, 80, 70}},
                  {400, 200, {kNo, kNo, kNo, kNo, 110, 105, 100}}});
}

TEST(Headlap, severe_as_table_b_prints_it) {
  expect_printed("supplier table B, severe", Exposure::severe, {27.5, 30, 35, 40, 45},
                 {{600, 300, {kNo, 100, 90, 80, 70}}, {500, 250, {110, 100, 90, 80, 70}}});
}

// The cells where one table of several prints otherwise.
TEST(Headlap, single_cells_that_one_table_prints_otherwise) {
  const Pack pack = built_in();
  struct Cell {
    double length, width, pitch, headlap;
    const char* table;
  };
  for (const Cell& cell :
       {Cell{500, 250, 25, 100, "the supplier table that prints 100 for 500×250 at 25°"},
        Cell{500, 250, 22.5, 125, "the supplier table that prints 125 for 500×250 at 22.5°"},
        Cell{400, 250, 27.5, 85, "the supplier table that prints 85 for 400×250 at 27.5°"},
        Cell{500, 250, 25, 90, "a merchant's list"}, Cell{500, 250, 27.5, 80, "a merchant's list"},
        Cell{500, 250, 20, 115, "a quick list seen on site"},
        Cell{500, 250, 25, 85, "a quick list seen on site"},
        Cell{500, 250, 35, 75, "a quick list seen on site"},
        Cell{500, 250, 45, 65, "a quick list seen on site"}}) {
    SCOPED_TRACE(testing::Message() << cell.table << ", " << cell.pitch);
    const auto answers = pack.slate_headlaps(Length::mm(cell.length), Length::mm(cell.width),
                                             Angle::degrees(cell.pitch), Exposure::moderate);
    const HeadlapAnswer* answer = from(answers, cell.table);
    ASSERT_NE(answer, nullptr);
    EXPECT_EQ(answer->headlap, Length::mm(cell.headlap));
    EXPECT_NE(answer->standing, Standing::standard);
  }
}

// Where such a table agrees with the main one it is not shown a second time.
TEST(Headlap, tables_that_agree_answer_once) {
  const Pack pack = built_in();
  const auto answers =
      pack.slate_headlaps(Length::mm(500), Length::mm(250), Angle::degrees(40), Exposure::moderate);
  ASSERT_EQ(answers.size(), 2U);
  EXPECT_EQ(answers[0].table, kModerate);
  EXPECT_EQ(answers[1].table, "a quick list seen on site");
  EXPECT_EQ(answers[1].headlap, Length::mm(70));
}

// Case: an owner has been told three headlaps for one roof. Arithmetic on the printed rows.
TEST(Headlap, slate_500_by_250_at_26_sheltered_shows_every_table) {
  const Pack pack = built_in();
  const auto answers =
      pack.slate_headlaps(Length::mm(500), Length::mm(250), Angle::degrees(26), Exposure::sheltered);
  std::vector<double> headlaps;
  for (const HeadlapAnswer& answer : answers) {
    ASSERT_TRUE(answer.headlap.has_value()) << answer.table;
    headlaps.push_back(answer.headlap->in_mm());
    EXPECT_TRUE(answer.interpolated) << answer.table;
    EXPECT_EQ(answer.below, 25) << answer.table;
    EXPECT_EQ(answer.above, answer.table == "a quick list seen on site" ? 35 : 27.5);
    EXPECT_EQ(answer.row, "500×250");
  }
  EXPECT_EQ(headlaps, (std::vector<double>{91, 94, 86, 84}));
  ASSERT_NE(default_headlap(answers), nullptr);
  EXPECT_EQ(default_headlap(answers)->headlap, Length::mm(91));
}

// Case: no table permits the slate; which pitch would, and which slates.
TEST(Headlap, slate_400_by_250_at_20_moderate_is_refused_with_offers) {
  const Pack pack = built_in();
  const auto answers =
      pack.slate_headlaps(Length::mm(400), Length::mm(250), Angle::degrees(20), Exposure::moderate);
  std::vector<double> first_pitches;
  for (const HeadlapAnswer& answer : answers) {
    EXPECT_FALSE(answer.headlap.has_value()) << answer.table;
    first_pitches.push_back(answer.first_pitch.value_or(0));
  }
  EXPECT_EQ(first_pitches, (std::vector<double>{30, 27.5}));
  EXPECT_EQ(default_headlap(answers), nullptr);
  const auto offers = pack.slate_sizes_permitted(Angle::degrees(20), Exposure::moderate);
  ASSERT_EQ(offers.size(), 1U);
  EXPECT_EQ(offers[0].length, Length::mm(500));
  EXPECT_EQ(offers[0].width, Length::mm(300));
  EXPECT_EQ(offers[0].headlap, Length::mm(115));
  EXPECT_EQ(offers[0].table, kModerate);
}

TEST(Headlap, offers_grow_with_the_pitch) {
  const Pack pack = built_in();
  const auto count = [&pack](double pitch, Exposure exposure) {
    return pack.slate_sizes_permitted(Angle::degrees(pitch), exposure).size();
  };
  EXPECT_EQ(count(19.9, Exposure::moderate), 0U);
  EXPECT_EQ(count(25, Exposure::moderate), 3U);
  EXPECT_EQ(count(30, Exposure::moderate), 8U);
  EXPECT_EQ(count(20, Exposure::severe), 0U);
  EXPECT_EQ(count(22.5, Exposure::severe), 1U);
  EXPECT_EQ(count(30, Exposure::severe), 7U);  // all but 400×200
  EXPECT_EQ(count(35, Exposure::severe), 8U);
}

// A list that no standard stands behind never permits what the printed tables refuse.
TEST(Headlap, quick_list_is_shown_but_never_chosen) {
  const Pack pack = built_in();
  const auto answers =
      pack.slate_headlaps(Length::mm(500), Length::mm(250), Angle::degrees(20), Exposure::moderate);
  const HeadlapAnswer* quick = from(answers, "a quick list seen on site");
  ASSERT_NE(quick, nullptr);
  EXPECT_EQ(quick->headlap, Length::mm(115));
  EXPECT_TRUE(quick->shown_only);
  EXPECT_EQ(quick->standing, Standing::practice);
  EXPECT_EQ(default_headlap(answers), nullptr);
}

TEST(Headlap, nothing_is_guessed_below_the_first_pitch) {
  const Pack pack = built_in();
  for (const double pitch : {19.999, 10.0, 0.0}) {
    for (const HeadlapAnswer& answer :
         pack.slate_headlaps(Length::mm(500), Length::mm(300), Angle::degrees(pitch), Exposure::moderate)) {
      EXPECT_FALSE(answer.headlap.has_value()) << pitch;
      EXPECT_EQ(answer.first_pitch, 20);
    }
  }
}

// 55 at 45° and 50 at 85° (printed), a straight line between; the severe tables end at 45°, whose value holds
// on.
TEST(Headlap, above_45_degrees) {
  const Pack pack = built_in();
  const auto at = [&pack](double pitch, Exposure exposure) {
    const auto answers =
        pack.slate_headlaps(Length::mm(500), Length::mm(300), Angle::degrees(pitch), exposure);
    return answers.at(0);
  };
  EXPECT_EQ(at(65, Exposure::moderate).headlap, Length::mm(52.5));
  EXPECT_TRUE(at(65, Exposure::moderate).interpolated);
  EXPECT_EQ(at(90, Exposure::moderate).headlap, Length::mm(50));
  EXPECT_EQ(at(60, Exposure::severe).headlap, Length::mm(70));
  EXPECT_FALSE(at(60, Exposure::severe).interpolated);
  EXPECT_EQ(at(60, Exposure::severe).above, 45);
}

TEST(Headlap, size_between_rows_takes_the_next_smaller) {
  const Pack pack = built_in();
  const auto first = [&pack](double length, double width, Exposure exposure) {
    return pack.slate_headlaps(Length::mm(length), Length::mm(width), Angle::degrees(35), exposure).at(0);
  };
  const HeadlapAnswer old_countess = first(508, 254, Exposure::moderate);  // 20 × 10 in
  EXPECT_EQ(old_countess.row, "500×250");
  EXPECT_TRUE(old_countess.size_was_between);
  EXPECT_EQ(first(610, 305, Exposure::moderate).row, "600×300");
  EXPECT_EQ(first(600, 250, Exposure::moderate).row, "500×250");
  EXPECT_EQ(first(660, 406, Exposure::moderate).row, "600×300");
  const HeadlapAnswer wide_but_short = first(450, 300, Exposure::moderate);
  EXPECT_EQ(wide_but_short.row, "smaller");
  EXPECT_TRUE(wide_but_short.size_was_between);
  EXPECT_FALSE(first(450, 220, Exposure::moderate).size_was_between);
  EXPECT_FALSE(first(500.4, 249.6, Exposure::moderate).size_was_between);  // the tape reads it as 500 × 250
  EXPECT_EQ(first(405, 205, Exposure::severe).row, "400×200");
  EXPECT_TRUE(first(405, 205, Exposure::severe).size_was_between);
}

TEST(Headlap, slate_smaller_than_any_row_is_not_permitted) {
  const Pack pack = built_in();
  const auto answers =
      pack.slate_headlaps(Length::mm(300), Length::mm(150), Angle::degrees(45), Exposure::severe);
  ASSERT_EQ(answers.size(), 2U);
  for (const HeadlapAnswer& answer : answers) {
    EXPECT_FALSE(answer.headlap.has_value());
    EXPECT_TRUE(answer.row.empty());
    EXPECT_FALSE(answer.first_pitch.has_value());
  }
}

TEST(Headlap, very_severe_says_that_the_severe_table_stands_in) {
  const Pack pack = built_in();
  const auto severe =
      pack.slate_headlaps(Length::mm(600), Length::mm(300), Angle::degrees(35), Exposure::severe);
  const auto worst =
      pack.slate_headlaps(Length::mm(600), Length::mm(300), Angle::degrees(35), Exposure::very_severe);
  ASSERT_EQ(worst.size(), severe.size());
  for (std::size_t i = 0; i < worst.size(); ++i) {
    EXPECT_EQ(worst[i].headlap, severe[i].headlap);
    EXPECT_TRUE(worst[i].stands_in);
    EXPECT_FALSE(severe[i].stands_in);
    EXPECT_EQ(worst[i].standing, Standing::practice);
    EXPECT_NE(worst[i].source.find("stands in"), std::string::npos);
  }
}

// Geometry, a published pattern: the moderate headlaps are close to a constant rise up the slope, 40, 40, 40,
// 39, 39.
TEST(Headlap, moderate_headlaps_make_a_nearly_constant_rise) {
  const Pack pack = built_in();
  for (const double pitch : {25.0, 30.0, 35.0, 40.0, 45.0}) {
    const auto answers =
        pack.slate_headlaps(Length::mm(600), Length::mm(300), Angle::degrees(pitch), Exposure::moderate);
    const double rise = answers.at(0).headlap.value().in_mm() * lapwright::sin_deg(pitch);
    EXPECT_NEAR(rise, pitch < 38 ? 40 : 39, 0.5) << pitch;
  }
}

// Geometry: a steeper slope never needs more lap.
TEST(Headlap, falls_or_holds_as_the_pitch_rises) {
  const Pack pack = built_in();
  for (const Exposure exposure : {Exposure::moderate, Exposure::severe}) {
    for (const auto& [length, width] :
         std::vector<std::pair<double, double>>{{600, 300}, {500, 250}, {400, 200}}) {
      std::optional<Length> last;
      for (double pitch = 15; pitch <= 90; pitch += 0.25) {
        const auto now =
            pack.slate_headlaps(Length::mm(length), Length::mm(width), Angle::degrees(pitch), exposure)
                .at(0)
                .headlap;
        if (last) {
          ASSERT_TRUE(now.has_value()) << pitch;
          EXPECT_LE(*now, *last) << pitch;
        }
        last = now;
      }
      EXPECT_TRUE(last.has_value());
    }
  }
}
}  // namespace
