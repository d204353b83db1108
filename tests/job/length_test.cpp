// Lengths as people write them. 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
#include <lapwright/job/length_text.h>

#include <gtest/gtest.h>

#include <lapwright/base/generator.h>

#include <string>

namespace {
using namespace lapwright;
using namespace lapwright::job;

struct Read {
  std::string text;
  double mm;
};

TEST(ReadLength, table_of_accepted_texts) {
  const Read cases[] = {
      {"75 mm", 75},
      {"75mm", 75},
      {"  75   mm  ", 75},
      {"75 MM", 75},
      {"7.5cm", 75},
      {"4.2 m", 4200},
      {"4,2 m", 4200},
      {"10 1/2 in", 266.7},
      {"10½\"", 266.7},
      {"10 ½ in", 266.7},
      {"½\"", 12.7},
      {"¼ in", 6.35},
      {"¾ in", 19.05},
      {"⅛ in", 3.175},
      {"⅜ in", 9.525},
      {"⅝ in", 15.875},
      {"⅞ in", 22.225},
      {"3.5\"", 88.9},
      {"3 in", 76.2},
      {"3 inches", 76.2},
      {"1 inch", 25.4},
      {"1/2 in", 12.7},
      {"5/16\"", 7.9375},
      {"18 ft", 5486.4},
      {"18 feet", 5486.4},
      {"1 foot", 304.8},
      {"18' 6 1/2\"", 5651.5},
      {"18′ 6½″", 5651.5},
      {"18'6''", 5638.8},
      {"18’ 6”", 5638.8},
      {"4 ft 0 1/2 in", 1231.9},
      {"1.5 ft", 457.2},
      {"18 ft 6.25 in", 5645.15},
      {"0", 0},
      {"0 mm", 0},
      {"12", 12},
      {"12.25", 12.25},
      {"1/3 in", 25.4 / 3},
      {"75\u00A0mm", 75},
      {"1⁄2 in", 12.7},
      {"104.33333333333333 mm", 104.33333333333333},
      {"0.1 m", 100},
      {"0.123456789 m", 123.456789},
  };
  for (const Read& c : cases) {
    const auto length = read_length(c.text, LengthUnit::mm);
    ASSERT_TRUE(length) << c.text << ": " << to_line(length.error().front());
    EXPECT_EQ(length->in_mm(), c.mm) << c.text;
  }
}

TEST(ReadLength, a_bare_number_is_in_the_files_unit) {
  EXPECT_EQ(read_length("10 1/2", LengthUnit::inches)->in_mm(), 266.7);
  EXPECT_EQ(read_length("10.25", LengthUnit::inches)->in_mm(), 260.35);
  EXPECT_EQ(read_length("75 mm", LengthUnit::inches)->in_mm(), 75);
}

TEST(ReadLength, table_of_refused_texts_and_how_to_mend_them) {
  struct Case {
    std::string text, mend;
  };
  const Case cases[] = {
      {"", "write a number and its unit"},
      {"   ", "write a number and its unit"},
      {"mm", "write a number first"},
      {"-5 mm", "a length here is never negative: remove the minus"},
      {"−5 mm", "a length here is never negative: remove the minus"},
      {"–5 mm", "remove the dash"},
      {"10–12 mm", "remove the dash"},
      {"3 yd", "\"yd\" is not a unit of length here: use mm, cm, m, in or ft"},
      {"5 m 3 cm", "use one unit; only feet and inches go together"},
      {"6 in 2 ft", "use one unit; only feet and inches go together"},
      {"18' 6", "after feet write inches, as in 18 ft 6 1/2 in"},
      {"18 ft 6 mm", "after feet write inches, as in 18 ft 6 1/2 in"},
      {"18 ft 6 in 2 in", "after feet write inches, as in 18 ft 6 1/2 in"},
      {"1.5 ft 6 in", "write whole feet before inches, and at most six decimals"},
      {"75 mm mm", "name one unit only"},
      {"1 200 mm", "write one number, without blanks inside it"},
      {"1,200 mm", "a comma before three digits may mean thousands: write a decimal point, or no separator"},
      {"1,200.5 mm", "write the number with one decimal point and no other separator"},
      {"1.2.3 mm", "write the number with one decimal point"},
      {".5 in", "write digits on both sides of the decimal point"},
      {"5. in", "write digits on both sides of the decimal point"},
      {"1/0 in", "write a fraction of whole numbers, such as 1/2 or 5/16"},
      {"3/2 in", "write a fraction that is less than one, such as 1 1/2 instead of 3/2"},
      {"1/2/3 in", "write a fraction as 1/2"},
      {"5.5 1/2 in", "write either decimals or a fraction, not both"},
      {"1e3 mm", "\"e\" is not a unit of length here: use mm, cm, m, in or ft"},
      {"75 mm!", "use digits, a fraction and one of the units mm, cm, m, in, ft"},
      {"10000000000 m", "write a length that a roof can have"},
      {std::string(65, '1'), "write a shorter length"},
  };
  for (const Case& c : cases) {
    const auto length = read_length(c.text, LengthUnit::mm);
    ASSERT_FALSE(length) << c.text;
    EXPECT_EQ(length.error().front().mend, c.mend) << c.text;
    EXPECT_EQ(length.error().front().code, FaultCode::bad_length);
    EXPECT_EQ(length.error().front().read, lapwright::quoted(c.text));
  }
}

TEST(ShownLength, millimetres_round_as_asked) {
  EXPECT_EQ(shown_mm(Length::mm(1234.5)), "1235");
  EXPECT_EQ(shown_mm(Length::mm(-1234.5)), "-1235");
  EXPECT_EQ(shown_mm(Length::mm(75.01), Rounding::up), "76");
  EXPECT_EQ(shown_mm(Length::mm(75 + 1e-12), Rounding::up), "75");
  EXPECT_EQ(shown_mm(Length::mm(75.99), Rounding::down), "75");
  EXPECT_EQ(shown_mm(Length::mm(-0.2)), "0");
}

TEST(ShownLength, inches_in_feet_and_sixteenths) {
  EXPECT_EQ(shown_inches(Length::inches(48.5)), "4 ft 0 1/2 in");
  EXPECT_EQ(shown_inches(Length::inches(10.5)), "10 1/2 in");
  EXPECT_EQ(shown_inches(Length::inches(0.0625)), "1/16 in");
  EXPECT_EQ(shown_inches(Length::inches(0.09)), "1/16 in");
  EXPECT_EQ(shown_inches(Length::inches(0.09), Rounding::up), "1/8 in");
  EXPECT_EQ(shown_inches(Length::inches(216)), "18 ft");
  EXPECT_EQ(shown_inches(Length::inches(0)), "0 in");
  EXPECT_EQ(shown_inches(Length::inches(11.99)), "1 ft");
  EXPECT_EQ(shown_inches(Length::inches(-3)), "-3 in");
}

TEST(ShownLength, what_is_shown_is_read_back) {
  Generator random(1);
  for (int i = 0; i < 20'000; ++i) {
    const Length sixteenths = Length::inches(static_cast<double>(random.between(0, 100'000)) / 16.0);
    const auto inches = read_length(shown_inches(sixteenths), LengthUnit::mm);
    ASSERT_TRUE(inches) << shown_inches(sixteenths);
    EXPECT_NEAR(inches->in_mm(), sixteenths.in_mm(), 1e-9);
    const Length whole = Length::mm(static_cast<double>(random.between(0, 1'000'000)));
    EXPECT_EQ(read_length(shown_mm(whole), LengthUnit::mm)->in_mm(), whole.in_mm());
  }
}

// A sum of n sixteenths written as feet, inches and a fraction is the double nearest to n·25.4/16, which
// n·254/160 gives in one division.
TEST(ReadLength, feet_and_inches_are_rounded_once) {
  for (std::int64_t n = 1; n < 5000; ++n) {
    const std::string text = std::to_string(n / 192) + " ft " + std::to_string(n % 192 / 16) + " " +
                             std::to_string(n % 16) + "/16 in";
    EXPECT_EQ(read_length(text, LengthUnit::mm)->in_mm(), static_cast<double>(n * 254) / 160.0) << text;
  }
}
}  // namespace
