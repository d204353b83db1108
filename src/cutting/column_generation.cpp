#include "column_generation.h"

#include <algorithm>

namespace lapwright::cutting {

namespace {
constexpr double kTowards = 0.7;   // how far from the program's prices towards the best proven ones
constexpr double kNear = 1e-9;     // a value that near to what is proven is as good as it
constexpr double kHopeless = 0.1;  // of the cost
constexpr double kDearStart = 20;  // ways to make a piece before any pattern is known: that many stocks each
constexpr std::size_t kRoundsMost = 2000;
}  // namespace

std::int64_t cost_of(const Problem& problem, const Pattern& pattern) {
  const Stock& stock = problem.stocks[static_cast<std::size_t>(pattern.stock)];
  if (problem.keep.per_million == 0) return stock.cost;
  std::int64_t length = 0;
  for (const Section& section : pattern.sections) length += std::int64_t{section.length} * section.copies;
  std::int64_t best = worth(problem.keep, stock.width, stock.length - length);
  if (pattern.sections.size() == 1 && pattern.sections.front().copies == 1 &&
      pattern.sections.front().length == stock.length) {
    std::int64_t width = 0;
    for (const Strip& strip : pattern.sections.front().strips)
      width += std::int64_t{strip.width} * strip.copies;
    best = std::max(best, worth(problem.keep, stock.width - width, stock.length));
  }
  return stock.cost - best;
}

ColumnGeneration::ColumnGeneration(const Problem& problem) : problem_(problem), two_stage_(problem) {
  std::int64_t dearest = 1;
  for (const Stock& stock : problem.stocks) dearest = std::max(dearest, stock.cost);
  scale_ = static_cast<double>(dearest);
  std::vector<double> demand;
  std::vector<Column> start;
  for (std::size_t t = 0; t < problem.demand.size(); ++t) {
    demand.push_back(static_cast<double>(problem.demand[t]));
    Column column;
    column.cost = kDearStart;
    column.entries.emplace_back(static_cast<std::int32_t>(t), 1.0);
    start.push_back(std::move(column));
  }
  std::vector<double> limits;
  for (const Stock& stock : problem.stocks) {
    if (stock.available == kUnlimited) {
      limit_row_.push_back(-1);
    } else {
      limit_row_.push_back(static_cast<std::int32_t>(demand.size() + limits.size()));
      limits.push_back(static_cast<double>(stock.available));
    }
  }
  simplex_ = std::make_unique<Simplex>(demand, limits, start);
  // Each option alone, as often as it goes into each stock: cheap prices to begin with.
  const Grid grid = grid_of(problem);
  for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
    for (const Oriented& o : grid.oriented) {
      const std::int32_t along = grid.lengths[s] / o.along;
      const std::int32_t across = grid.widths[s] / o.across;
      if (along == 0 || across == 0) continue;
      Pattern pattern;
      pattern.stock = static_cast<std::int32_t>(s);
      if (problem.first_cut == FirstCut::along) {
        Section section{problem.stocks[s].length, 1, {}};
        section.strips.push_back({o.across * grid.step, across, {{o.option, o.turned, along}}});
        pattern.sections.push_back(std::move(section));
      } else {
        Section section{o.along * grid.step, along, {}};
        section.strips.push_back({o.across * grid.step, across, {{o.option, o.turned, 1}}});
        pattern.sections.push_back(std::move(section));
      }
      pattern.counts = counts_of(problem, pattern.sections);
      offer(pattern);
    }
  }
  simplex_->settle();
}

Column ColumnGeneration::column_of(const Pattern& pattern) const {
  Column out;
  out.cost = static_cast<double>(cost_of(problem_, pattern)) / scale_;
  for (std::size_t t = 0; t < pattern.counts.size(); ++t) {
    if (pattern.counts[t] != 0) out.entries.emplace_back(static_cast<std::int32_t>(t), pattern.counts[t]);
  }
  const std::int32_t row = limit_row_[static_cast<std::size_t>(pattern.stock)];
  if (row >= 0) out.entries.emplace_back(row, 1.0);
  return out;
}

bool ColumnGeneration::offer(const Pattern& pattern) {
  Column column = column_of(pattern);
  column.tag = static_cast<std::int32_t>(patterns_.size());
  if (!simplex_->enter(column)) return false;
  patterns_.push_back(pattern);
  return true;
}

bool ColumnGeneration::step() {
  if (++rounds_ > kRoundsMost) return false;
  std::vector<double> own;
  for (std::size_t t = 0; t < problem_.demand.size(); ++t) own.push_back(std::max(0.0, simplex_->price(t)));
  if (!centre_.empty()) {
    if (simplex_->value() - proven_ <= kNear * proven_) {
      ended_ = true;
      return false;
    }
    std::vector<double> between;
    for (std::size_t t = 0; t < own.size(); ++t)
      between.push_back(kTowards * centre_[t] + (1 - kTowards) * own[t]);
    if (price_at(between)) return true;
  }
  if (price_at(own)) return true;
  ended_ = true;
  return false;
}

bool ColumnGeneration::price_at(const std::vector<double>& prices) {
  two_stage_.price(prices, 1 / scale_);
  work_ += two_stage_.work() / 5 * 2;  // a step here takes that much of one of the search's
  struct Found {
    double worth = 0;
    std::size_t stock = 0;
    bool across = false;
  };
  std::vector<Found> found;
  double ratio = 1;
  bool limited = problem_.keep.per_million != 0;
  for (std::size_t s = 0; s < problem_.stocks.size(); ++s) {
    double limit = static_cast<double>(problem_.stocks[s].cost) / scale_;
    if (limit_row_[s] >= 0) {
      limit -= simplex_->price(static_cast<std::size_t>(limit_row_[s]));
      limited = true;
    }
    for (const bool across : {true, false}) {
      const double most = two_stage_.most(s, across);
      if (most > 0) ratio = std::min(ratio, limit / most);
      // How good it is by the program's own prices, enter() looks again.
      found.push_back({(most - limit) / std::max(limit, 1e-9), s, across});
    }
  }
  if (!limited) {
    double proves = 0;
    for (std::size_t t = 0; t < prices.size(); ++t)
      proves += ratio * prices[t] * static_cast<double>(problem_.demand[t]);
    if (proves > proven_) {
      proven_ = proves;
      centre_.clear();
      for (const double price : prices) centre_.push_back(ratio * price);
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Found& a, const Found& b) { return a.worth > b.worth; });
  bool any = false;
  for (const Found& one : found) {
    // Far below its cost at these prices it is not above at the others.
    if (one.worth < -kHopeless) break;
    if (offer(two_stage_.pattern(one.stock, one.across))) {
      any = true;
      simplex_->settle();
    }
  }
  return any;
}

std::vector<double> ColumnGeneration::prices() const {
  std::vector<double> out;
  for (std::size_t t = 0; t < problem_.demand.size(); ++t)
    out.push_back(std::max(0.0, simplex_->price(t)) * scale_);
  return out;
}

std::vector<double> ColumnGeneration::proof_prices() const {
  if (ended_ || centre_.empty()) return prices();
  std::vector<double> out;
  for (const double price : centre_) out.push_back(price * scale_);
  return out;
}

std::vector<ColumnGeneration::Use> ColumnGeneration::uses() const {
  std::vector<Use> out;
  for (const Simplex::Share& share : simplex_->basis()) {
    if (share.amount > 1e-6) out.push_back({static_cast<std::size_t>(share.tag), share.amount});
  }
  return out;
}

}  // namespace lapwright::cutting
