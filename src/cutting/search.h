// Better and better plans: rolls filled one after the other, then a few rolls at a time taken up and filled
// anew.
//
// The best so far is always whole: every piece that was asked for is in it, none twice. One call of step() is
// one roll or one attempt, a few milliseconds at most, so that a host can show progress and cancel.
#pragma once

#include "fill.h"
#include "grid.h"

#include <lapwright/base/generator.h>
#include <lapwright/cutting/problem.h>

#include <cstdint>
#include <optional>
#include <vector>

namespace lapwright::cutting {

class Search {
 public:
  // `prices`: what a piece of each type is worth, of column generation.
  Search(const Problem& problem, const std::vector<double>& prices, std::uint64_t seed);

  // Begins with these rolls; step() fills what they lack.
  void begin(const std::vector<Pattern>& rolls);
  // One roll, or one attempt. `budget`: the work after which the caller will stop, for the cooling.
  void step(std::int64_t budget);

  bool whole() const { return whole_; }
  bool stuck() const { return stuck_; }  // pieces are left that no stock takes
  std::int64_t work() const { return fill_.work() + overhead_; }
  std::int64_t cost() const { return best_cost_; }
  Solution solution() const;
  const std::vector<std::int32_t>& missing() const { return left_; }
  std::int64_t attempts() const { return attempts_; }

 private:
  struct Roll {
    std::size_t pattern = 0;  // in store_
    std::int64_t cost = 0;    // with its cuts, as weighed
    double loss = 0;          // cost less the worth of its pieces
  };
  void fill_one();
  void attempt(std::int64_t budget);
  std::size_t keep(Pattern pattern);
  Roll roll_of(std::size_t pattern) const;
  std::int64_t weighed(const Pattern& pattern) const;
  void sum_up();
  std::vector<std::size_t> pick(std::size_t count);
  void some_lengths(const std::vector<std::int32_t>& left);

  const Problem& problem_;
  Grid grid_;
  Fill fill_;
  Generator random_;
  std::vector<double> prices_;
  std::vector<double> least_;  // of each type, what a piece costs at least: its area at the cheapest stock
  std::vector<Pattern> store_;
  std::vector<Roll> now_;
  std::vector<Roll> best_;
  std::int64_t now_cost_ = 0;
  std::int64_t best_cost_ = 0;
  std::int64_t overhead_ = 0;
  std::int64_t attempts_ = 0;
  std::int64_t smallest_ = 1;
  bool whole_ = false;
  bool stuck_ = false;
  std::vector<std::int32_t> left_;
  std::vector<std::int64_t> stock_left_;
  std::vector<std::int32_t> lengths_;
};

// Cuts of one copy of a pattern: equal parts that are cut together count once.
std::int64_t cuts_of(const Problem& problem, const Pattern& pattern);

}  // namespace lapwright::cutting
