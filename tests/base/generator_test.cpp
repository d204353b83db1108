#include <lapwright/base/generator.h>

#include <gtest/gtest.h>

#include <array>
#include <cstdint>
#include <set>

namespace {

using lapwright::Generator;

// Known values of SplitMix64 with the seed 1234567, as commonly printed with the algorithm; recomputed here
// from the definition by independent means (arbitrary-precision integers), not read from the code under test.
TEST(Generator, gives_the_known_stream) {
  Generator generator(1234567);
  for (const std::uint64_t expected : {6457827717110365317ULL, 3203168211198807973ULL, 9817491932198370423ULL,
                                       4593380528125082431ULL, 16408922859458223821ULL}) {
    EXPECT_EQ(generator.next(), expected);
  }
}

TEST(Generator, starts_anywhere_and_repeats_itself) {
  static_assert(Generator(0).next() == 0xE220A8397B1DCDAFULL);
  Generator a(99);
  Generator b(99);
  for (int i = 0; i < 100; ++i) EXPECT_EQ(a.next(), b.next());
}

TEST(Generator, between_reaches_both_ends_and_no_further) {
  Generator generator(3);
  std::set<std::int64_t> seen;
  for (int i = 0; i < 1000; ++i) seen.insert(generator.between(-2, 3));
  EXPECT_EQ(seen, (std::set<std::int64_t>{-2, -1, 0, 1, 2, 3}));
  EXPECT_EQ(generator.between(7, 7), 7);
}

TEST(Generator, unit_is_even_over_its_range) {
  Generator generator(4);
  std::array<int, 10> bins{};
  constexpr int kDraws = 100000;
  for (int i = 0; i < kDraws; ++i) {
    const double x = generator.unit();
    ASSERT_GE(x, 0);
    ASSERT_LT(x, 1);
    ++bins[static_cast<std::size_t>(x * 10)];
  }
  // 10000 expected in each, deviation about 95: five of them.
  for (const int n : bins) EXPECT_NEAR(n, kDraws / 10, 475);
}

TEST(Generator, chance_is_as_often_as_said) {
  Generator generator(5);
  int hits = 0;
  for (int i = 0; i < 100000; ++i) hits += generator.chance(0.2) ? 1 : 0;
  EXPECT_NEAR(hits, 20000, 640);  // deviation 126
  EXPECT_FALSE(Generator(1).chance(0));
  EXPECT_TRUE(Generator(1).chance(1));
}

}  // namespace
