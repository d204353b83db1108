#include "deflate.h"

#include <gtest/gtest.h>

#include <vector>

namespace {
using lapwright::draw::code_lengths;

// A prefix code with these lengths exists, and no bit of it is idle: the Kraft sum is exactly 1.
void expect_complete(const std::vector<std::uint8_t>& lengths, unsigned limit) {
  std::uint64_t sum = 0;
  for (const std::uint8_t length : lengths) {
    EXPECT_LE(length, limit);
    if (length > 0) sum += std::uint64_t{1} << (limit - length);
  }
  EXPECT_EQ(sum, std::uint64_t{1} << limit);
}

// Counts that grow like the Fibonacci numbers give the longest codes there are.
TEST(CodeLengths, keep_to_their_limit) {
  for (const unsigned limit : {7U, 15U}) {
    for (const std::size_t symbols : {2U, 8U, 16U, 19U, 24U, 40U}) {
      std::vector<std::uint32_t> counts{1, 1};
      while (counts.size() < symbols) counts.push_back(counts[counts.size() - 2] + counts.back());
      expect_complete(code_lengths(counts, limit), limit);
    }
  }
}

TEST(CodeLengths, give_the_frequent_the_shorter) {
  EXPECT_EQ(code_lengths({1, 0, 8, 2, 4}, 15), (std::vector<std::uint8_t>{3, 0, 1, 3, 2}));
  EXPECT_EQ(code_lengths({0, 5, 0}, 15), (std::vector<std::uint8_t>{0, 1, 0}));
  EXPECT_EQ(code_lengths({0, 0}, 15), (std::vector<std::uint8_t>{0, 0}));
}

}  // namespace
