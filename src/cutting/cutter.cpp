#include <lapwright/cutting/cutter.h>

#include "column_generation.h"
#include "search.h"
#include "straight.h"
#include "tiny.h"

#include <algorithm>
#include <limits>
#include <optional>
#include <utility>

namespace lapwright::cutting {

namespace {
constexpr std::int64_t kTinyWork = 40'000'000;     // steps of sub-multisets, each far cheaper than the others
constexpr std::int64_t kAfterTiny = 6'000'000;     // to look for what beats strip cutting
constexpr double kPricesShare = 0.5;               // of the budget, for the linear program
constexpr std::int64_t kPricesLeast = 60'000'000;  // whatever the effort: no bound, no proof
constexpr double kStraightShare = 0.25;            // for the bound on straight cutting
constexpr double kManyRolls = 90;                  // from here on its whole patterns are a good beginning
constexpr double kDiveShare = 0.2;                 // for the programs of what is left
constexpr double kNearlyOne = 0.6;                 // of a pattern: taken whole
constexpr std::size_t kTypesMost = 400;            // beyond, the linear program is not worth its time
}  // namespace

struct Cutter::State {
  enum class Phase : std::uint8_t { small, prices, proof, straight, search, done };

  State(Problem given, std::int64_t work)
      : problem(std::move(given)), budget(std::max<std::int64_t>(work, 1)) {}

  Problem problem;
  std::int64_t budget;
  Phase phase = Phase::small;
  std::int64_t spent = 0;  // in phases that are over
  std::optional<Solution> small;
  std::optional<ColumnGeneration> prices;
  std::optional<Search> search;
  Certificate strips;
  std::optional<StraightBound> straight_bound;
  std::int64_t straight = 0;
  std::int64_t exact = -1;
  double progress = 0;  // never falls, though a budget may

  std::int64_t work() const {
    return spent + (phase == Phase::prices && prices ? prices->work() : 0) +
           (phase == Phase::straight && straight_bound ? straight_bound->work() : 0) +
           (search ? search->work() : 0);
  }

  void solve_small() {
    std::int64_t steps = 0;
    // With offcuts worth keeping it proves nothing, yet what is cheapest without them is a good plan to beat.
    Problem plain = problem;
    plain.keep = {};
    small = exact_two_stage(plain, kTinyWork, steps);
    spent += steps / 8;
    if (small && problem.keep.per_million == 0) {
      exact = small->cost;
      budget = std::min(budget, spent + kAfterTiny);
    } else if (small) {
      small->cost = 0;
      for (const Pattern& pattern : small->patterns)
        small->cost += pattern.copies * cost_of(problem, pattern);
    }
    phase = Phase::prices;
  }

  void find_prices() {
    if (!prices) {
      prices.emplace(problem);
      return;
    }
    const auto share = static_cast<std::int64_t>(kPricesShare * static_cast<double>(budget));
    const bool many = problem.demand.size() > kTypesMost;
    if (!many && prices->work() < std::max<std::int64_t>(share, kPricesLeast) && prices->step()) return;
    phase = Phase::proof;
  }

  void prove() {
    strips = certify_two_stage(problem, prices->proof_prices());
    spent += prices->work();
    search.emplace(problem, prices->prices(), 20251);
    double rolls = 0;
    for (const ColumnGeneration::Use& use : prices->uses()) rolls += use.amount;
    std::vector<Pattern> begin;
    if (rolls > kManyRolls) begin = dived();
    search->begin(begin);
    phase = problem.keep.per_million == 0 ? Phase::straight : Phase::search;
  }

  void bound_straight() {
    if (!straight_bound) straight_bound.emplace(problem, *prices);
    const auto share = static_cast<std::int64_t>(kStraightShare * static_cast<double>(budget));
    const bool more = straight_bound->step();
    straight = std::max(straight, straight_bound->bound());
    if (more && straight_bound->work() + straight_bound->round_work() < share) return;
    spent += straight_bound->work();
    phase = Phase::search;
  }

  // What is still to be cut, and what there is to cut it from.
  struct Rest {
    std::vector<std::int64_t> left;
    std::vector<std::int64_t> stock;
  };

  // How often a pattern goes into the rest with no piece cut twice.
  static std::int64_t times_in(const Pattern& pattern, const Rest& rest) {
    const std::int64_t have = rest.stock[static_cast<std::size_t>(pattern.stock)];
    std::int64_t times = have >= 0 ? have : std::numeric_limits<std::int64_t>::max();
    for (std::size_t t = 0; t < rest.left.size(); ++t) {
      if (pattern.counts[t] > 0) times = std::min(times, rest.left[t] / pattern.counts[t]);
    }
    return times;
  }
  static void take(Pattern pattern, std::int64_t times, Rest& rest, std::vector<Pattern>& into) {
    auto& have = rest.stock[static_cast<std::size_t>(pattern.stock)];
    if (have >= 0) have -= times;
    for (std::size_t t = 0; t < rest.left.size(); ++t) rest.left[t] -= times * pattern.counts[t];
    pattern.copies = times;
    into.push_back(std::move(pattern));
  }

  // The linear program's patterns, as often as they go in whole; of none that goes, the one that it takes
  // most of.
  static bool take_whole(const ColumnGeneration& program, Rest& rest, std::vector<Pattern>& into) {
    std::vector<ColumnGeneration::Use> uses = program.uses();
    std::stable_sort(uses.begin(), uses.end(),
                     [](const auto& a, const auto& b) { return a.amount > b.amount; });
    bool any = false;
    for (const bool whole : {true, false}) {
      for (const ColumnGeneration::Use& use : uses) {
        const Pattern& pattern = program.patterns()[use.pattern];
        const std::int64_t wanted =
            whole ? static_cast<std::int64_t>(use.amount + 1e-6) : use.amount > kNearlyOne;
        const std::int64_t times = std::min(wanted, times_in(pattern, rest));
        if (times <= 0) continue;
        take(pattern, times, rest, into);
        any = true;
        if (!whole) return true;
      }
      if (any) return true;
    }
    return false;
  }

  // Where many equal rolls are wanted: its whole patterns, then those of the program for what is left, and so
  // on, while that costs little.
  std::vector<Pattern> dived() {
    Rest rest{problem.demand, {}};
    for (const Stock& one : problem.stocks) rest.stock.push_back(one.available);
    std::vector<Pattern> out;
    bool more = take_whole(*prices, rest, out);
    const auto share = static_cast<std::int64_t>(kDiveShare * static_cast<double>(budget));
    for (std::int64_t used = prices->work(); more && used < share;) {
      Problem left = problem;
      left.demand = rest.left;
      for (std::size_t s = 0; s < left.stocks.size(); ++s) left.stocks[s].available = rest.stock[s];
      ColumnGeneration program(left);
      for (const Pattern& known : prices->patterns()) {
        if (times_in(known, rest) > 0 && program.offer(known)) program.settle();
      }
      while (program.step()) {
      }
      used += program.work();
      spent += program.work();
      more = take_whole(program, rest, out);
    }
    return out;
  }

  std::int64_t least() const { return exact >= 0 ? std::max(strips.bound, exact) : strips.bound; }

  void improve() {
    const bool first = !search->whole() && !search->stuck();
    if (!first && (search->stuck() || work() >= budget || search->cost() <= straight ||
                   (exact < 0 && search->cost() <= least() && problem.cut_cost == 0))) {
      phase = Phase::done;
      return;
    }
    search->step(budget - spent);
  }

  void step() {
    switch (phase) {
      case Phase::small:
        return solve_small();
      case Phase::prices:
        return find_prices();
      case Phase::proof:
        return prove();
      case Phase::straight:
        return bound_straight();
      case Phase::search:
        return improve();
      case Phase::done:
        return;
    }
  }
};

Cutter::Cutter(Problem problem, std::int64_t budget)
    : state_(std::make_unique<State>(std::move(problem), budget)) {}
Cutter::~Cutter() = default;
Cutter::Cutter(Cutter&&) noexcept = default;
Cutter& Cutter::operator=(Cutter&&) noexcept = default;

bool Cutter::step() {
  state_->step();
  const double done = static_cast<double>(state_->work()) / static_cast<double>(state_->budget);
  state_->progress = std::min(1.0, std::max(state_->progress, done));
  return state_->phase != State::Phase::done;
}

double Cutter::progress() const {
  if (state_->phase == State::Phase::done) return 1;
  return state_->progress;
}

bool Cutter::has_plan() const {
  return state_->small.has_value() ||
         (state_->search && (state_->search->whole() || state_->search->stuck()));
}

const Problem& Cutter::problem() const {
  return state_->problem;
}

std::vector<std::int64_t> Cutter::missing() const {
  std::vector<std::int64_t> out(state_->problem.demand.size(), 0);
  if (state_->small || !state_->search || state_->search->whole()) return out;
  for (std::size_t t = 0; t < out.size(); ++t) out[t] = std::max(0, state_->search->missing()[t]);
  return out;
}

Solution Cutter::best() const {
  const bool found = state_->search && (state_->search->whole() || state_->search->stuck());
  if (state_->small && (!found || state_->small->cost <= state_->search->cost())) return *state_->small;
  return found ? state_->search->solution() : Solution{};
}

const Certificate& Cutter::strips() const {
  return state_->strips;
}
std::int64_t Cutter::exact_strips() const {
  return state_->exact;
}
std::int64_t Cutter::straight() const {
  return state_->straight;
}
Cutter::StraightProof Cutter::straight_proof() const {
  if (!state_->straight_bound) return {};
  const StraightBound::Proof& proof = state_->straight_bound->proof();
  return {proof.step, proof.unit, proof.prices};
}
std::int64_t Cutter::work() const {
  return state_->work();
}

}  // namespace lapwright::cutting
