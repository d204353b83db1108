// What no straight cutting from edge to edge can be cheaper than.
//
// The linear program goes on from the two-stage one with patterns of the guillotine table. After each round
// the prices are shrunk until no rectangle of stock is worth more than it costs, in whole numbers: then they
// prove a bound. Sides are rounded down to a coarse grid first, which only makes cutting easier, so the bound
// stays true.
#pragma once

#include "column_generation.h"

#include <lapwright/cutting/guillotine.h>

#include <cstdint>
#include <vector>

namespace lapwright::cutting {

class StraightBound {
 public:
  // `program` has its two-stage prices; this goes on with it. REQUIRES that nothing is worth keeping.
  StraightBound(const Problem& problem, ColumnGeneration& program);

  bool step();  // one round; false when the bound will not rise any more
  std::int64_t bound() const { return bound_; }
  // Who doubts it prices with these, each in 1024/unit of the problem's money, sides rounded down to steps.
  struct Proof {
    std::int32_t step = 0;
    std::int64_t unit = 0;
    std::vector<std::int64_t> prices;
  };
  const Proof& proof() const { return proof_; }
  std::int64_t work() const { return work_; }
  std::int64_t round_work() const;

 private:
  std::int32_t coarse(std::int32_t side) const { return side / step_; }

  const Problem& problem_;
  ColumnGeneration& program_;
  std::int32_t step_ = 1;
  std::vector<std::int32_t> option_of_;  // of each item of the table
  GuillotineTable table_;
  std::int64_t bound_ = 0;
  Proof proof_;
  std::int64_t work_ = 0;
  int rounds_ = 0;
  bool too_coarse_ = false;
};

}  // namespace lapwright::cutting
