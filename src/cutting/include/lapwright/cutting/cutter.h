// The optimiser: one problem in, better and better plans and a proven bound out.
//
// Anytime and in slices: step() does a few milliseconds of counted work and returns; best() is at any time
// after the first plan a whole one. The same problem and effort give the same plan in every build: work is
// counted, no clock is read, and nothing that is proven rests on floating point.
#pragma once

#include <lapwright/cutting/bound.h>
#include <lapwright/cutting/problem.h>

#include <cstdint>
#include <memory>

namespace lapwright::cutting {

// About a second of one thread of an ordinary machine.
inline constexpr std::int64_t kWorkOfASecond = 170'000'000;

class Cutter {
 public:
  // REQUIRES that every type with demand has an option that fits some stock. `problem` is copied.
  Cutter(Problem problem, std::int64_t budget);
  ~Cutter();
  Cutter(Cutter&&) noexcept;
  Cutter& operator=(Cutter&&) noexcept;

  // Does some work. Returns false when there is nothing more to do.
  bool step();
  double progress() const;  // 0 to 1
  bool has_plan() const;

  const Problem& problem() const;
  // Pieces that the stock does not suffice for; empty when all are cut. Limited stock only.
  std::vector<std::int64_t> missing() const;
  Solution best() const;
  // The proven bound on two-stage plans with its certificate.
  const Certificate& strips() const;
  // Every two-stage plan was looked at: its cheapest cost, or −1.
  std::int64_t exact_strips() const;
  // No straight edge-to-edge cutting is cheaper; 0 where it was not worked out.
  std::int64_t straight() const;
  // Its certificate: sides rounded down to `step`, prices of each type in 1024/`unit` of money. Step 0: none.
  struct StraightProof {
    std::int32_t step = 0;
    std::int64_t unit = 0;
    std::vector<std::int64_t> prices;
  };
  StraightProof straight_proof() const;
  std::int64_t work() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace lapwright::cutting
