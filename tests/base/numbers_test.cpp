#include <lapwright/base/numbers.h>

#include <gtest/gtest.h>

namespace {
using lapwright::trimmed;
using lapwright::whole_up;

TEST(Trimmed, drops_zeros_and_minus_zero) {
  EXPECT_EQ(trimmed(337.5, 3), "337.5");
  EXPECT_EQ(trimmed(90, 3), "90");
  EXPECT_EQ(trimmed(-0.0001, 3), "0");
  EXPECT_EQ(trimmed(-0.5, 3), "-0.5");
}

TEST(WholeUp, forgives_noise_but_not_a_real_excess) {
  EXPECT_EQ(whole_up(5000.0 / (5000.0 / 15.0)), 15);
  EXPECT_EQ(whole_up(15.0 + 1e-12), 15);
  EXPECT_EQ(whole_up(15.0 + 1e-6), 16);
}
}  // namespace
