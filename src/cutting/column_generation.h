// Prices of the pieces: the linear program over all patterns of two stages, by column generation.
#pragma once

#include "simplex.h"
#include "two_stage.h"

#include <lapwright/cutting/problem.h>

#include <cstdint>
#include <memory>
#include <vector>

namespace lapwright::cutting {

class ColumnGeneration {
 public:
  explicit ColumnGeneration(const Problem& problem);

  // One round of pricing. Returns false when no pattern is worth taking in any more.
  bool step();
  std::int64_t work() const { return work_; }

  // Prices of each type, in the problem's money.
  std::vector<double> prices() const;
  // Those that prove most: the best so far where the program was not run to its end.
  std::vector<double> proof_prices() const;
  double value() const { return simplex_->value() * scale_; }
  std::size_t rounds() const { return rounds_; }

  // The patterns in use, and how often.
  struct Use {
    std::size_t pattern = 0;
    double amount = 0;
  };
  std::vector<Use> uses() const;
  const std::vector<Pattern>& patterns() const { return patterns_; }
  // Takes in a pattern that was found elsewhere.
  bool offer(const Pattern& pattern);
  void settle() { simplex_->settle(); }

 private:
  Column column_of(const Pattern& pattern) const;
  bool price_at(const std::vector<double>& prices);

  const Problem& problem_;
  TwoStage<double> two_stage_;
  std::unique_ptr<Simplex> simplex_;
  std::vector<std::int32_t> limit_row_;  // of each stock; −1 where unlimited
  std::vector<Pattern> patterns_;
  double scale_ = 1;
  std::int64_t work_ = 0;
  std::size_t rounds_ = 0;
  // The prices that proved most so far, and what they prove, scaled: pricing between them and the program's
  // own keeps these from swinging to and fro.
  std::vector<double> centre_;
  double proven_ = 0;
  bool ended_ = false;
};

// Money of a pattern: its stock less the worth of what is left of it over its whole width or its whole
// length.
std::int64_t cost_of(const Problem& problem, const Pattern& pattern);

}  // namespace lapwright::cutting
