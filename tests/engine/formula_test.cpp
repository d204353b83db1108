// The test's own reader of formulas must itself be right, and must see what is wrong.
#include "formula.h"

#include <gtest/gtest.h>

#include <map>
#include <string>

namespace lapwright::sample {
namespace {

using Symbols = std::map<std::string, long double>;

double value_of(const char* formula, const Symbols& symbols = {}) {
  const Evaluated got = evaluate(formula, symbols);
  EXPECT_EQ(got.complaint, "") << formula;
  return static_cast<double>(got.value);
}

TEST(Formula, FollowsArithmetic) {
  EXPECT_DOUBLE_EQ(value_of("1 + 2 * 3 - 4 / 2"), 5);
  EXPECT_DOUBLE_EQ(value_of("(1 + 2) * -3"), -9);
  EXPECT_DOUBLE_EQ(value_of("10 - 2 - 3"), 5);
  EXPECT_DOUBLE_EQ(value_of("100 / 5 / 2"), 10);
  EXPECT_DOUBLE_EQ(value_of("L - G + a", {{"L", 265}, {"G", 100}, {"a", 25}}), 190);
  EXPECT_DOUBLE_EQ(value_of("max(75, 65 + t) + min(3, 2, 9)", {{"t", 12}}), 79);
}

TEST(Formula, TakesAnglesInDegrees) {
  EXPECT_NEAR(value_of("75 / sin(30)"), 150, 1e-12);
  EXPECT_NEAR(value_of("cos(60) + tan(45) + sqrt(9)"), 4.5, 1e-12);
}

TEST(Formula, CountsForgiveNoise) {
  EXPECT_DOUBLE_EQ(value_of("ceil(3600 / 100.00000000000001)"), 36);
  EXPECT_DOUBLE_EQ(value_of("ceil(x)", {{"x", 15.0000000000001L}}), 15);
  EXPECT_DOUBLE_EQ(value_of("ceil(x)", {{"x", 15.001L}}), 16);
  EXPECT_DOUBLE_EQ(value_of("floor(x)", {{"x", 14.9999999999999L}}), 15);
}

TEST(Formula, ComplainsOfWhatItCannotRead) {
  for (const char* formula :
       {"L - Q", "L +", "(L", "L)", "L L", "sec(L)", "L / (L - L)", "", "sin(L, L)", "L % 2"}) {
    EXPECT_NE(evaluate(formula, {{"L", 2}}).complaint, "") << formula;
  }
}

TEST(Formula, ComplainsOfFiguresThatDoNotAddUp) {
  job::Figure figure;
  figure.name = "length";
  figure.formula = "L - G";
  figure.terms = {{"L", 265, "mm", "survey"}, {"G", 100, "mm", "set-out"}};
  figure.value = 165;
  EXPECT_EQ(complaint_about(figure), "");
  figure.value = 165.00001;
  EXPECT_NE(complaint_about(figure), "");
  figure.value = 165;
  figure.terms.push_back({"a", 25, "mm", "rule soaker.head_allowance"});
  EXPECT_NE(complaint_about(figure), "");  // a term that the formula does not use
  figure.terms.pop_back();
  figure.terms.pop_back();
  EXPECT_NE(complaint_about(figure), "");  // a symbol without a term
}

}  // namespace
}  // namespace lapwright::sample
