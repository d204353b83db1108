#include "search.h"

#include "column_generation.h"

#include <algorithm>
#include <limits>
#include <map>

namespace lapwright::cutting {

namespace {
constexpr std::size_t kOpenMost = 6;
}  // namespace

std::int64_t cuts_of(const Problem& problem, const Pattern& pattern) {
  const Stock& stock = problem.stocks[static_cast<std::size_t>(pattern.stock)];
  std::int64_t cuts = 0;
  std::int64_t along = 0;
  std::int64_t sections = 0;
  for (const Section& section : pattern.sections) {
    along += std::int64_t{section.length} * section.copies;
    sections += section.copies;
    std::int64_t across = 0;
    std::int64_t strips = 0;
    for (const Strip& strip : section.strips) {
      across += std::int64_t{strip.width} * strip.copies;
      strips += strip.copies;
      std::int64_t used = 0;
      std::int64_t cells = 0;
      for (const Cell& cell : strip.cells) {
        const Option& option = problem.options[static_cast<std::size_t>(cell.option)];
        used += std::int64_t{lies_along(option, cell.turned)} * cell.count;
        cells += cell.count;
        if (lies_across(option, cell.turned) != strip.width) ++cuts;  // trimmed together
      }
      cuts += cells - (used == section.length ? 1 : 0);
    }
    cuts += strips - (across == stock.width ? 1 : 0);
  }
  return cuts + sections - (along == stock.length ? 1 : 0);
}

Search::Search(const Problem& problem, const std::vector<double>& prices, std::uint64_t seed)
    : problem_(problem), grid_(grid_of(problem)), fill_(problem_, grid_), random_(seed), prices_(prices) {
  double rate = std::numeric_limits<double>::max();
  smallest_ = std::numeric_limits<std::int64_t>::max();
  for (const Stock& stock : problem.stocks) {
    rate =
        std::min(rate, static_cast<double>(stock.cost) / (static_cast<double>(stock.width) * stock.length));
    smallest_ = std::min(smallest_, std::max<std::int64_t>(stock.cost, 1));
  }
  rate = std::max(0.0, rate - static_cast<double>(problem.keep.per_million) / 1e6);
  least_.assign(problem.demand.size(), std::numeric_limits<double>::max());
  for (const Option& option : problem.options) {
    std::int32_t pieces = 0;
    for (const Share& share : option.gives) pieces += share.count;
    for (const Share& share : option.gives) {
      double& least = least_[static_cast<std::size_t>(share.type)];
      least = std::min(least, rate * option.along * option.across / pieces);
    }
  }
  for (std::size_t t = 0; t < prices_.size(); ++t) {
    if (least_[t] == std::numeric_limits<double>::max()) least_[t] = 0;
    // Even a piece that the linear program gets for nothing wants a place.
    prices_[t] = std::max({prices_[t], 0.5 * least_[t], 1e-6});
  }
  left_.assign(problem.demand.begin(), problem.demand.end());
  for (const Stock& stock : problem.stocks) stock_left_.push_back(stock.available);
}

std::size_t Search::keep(Pattern pattern) {
  store_.push_back(std::move(pattern));
  return store_.size() - 1;
}

std::int64_t Search::weighed(const Pattern& pattern) const {
  std::int64_t out = cost_of(problem_, pattern);
  if (problem_.cut_cost != 0) out += problem_.cut_cost * cuts_of(problem_, pattern);
  return out;
}

Search::Roll Search::roll_of(std::size_t pattern) const {
  Roll out;
  out.pattern = pattern;
  out.cost = weighed(store_[pattern]);
  double value = 0;
  for (std::size_t t = 0; t < prices_.size(); ++t) value += prices_[t] * store_[pattern].counts[t];
  out.loss = static_cast<double>(out.cost) - value;
  return out;
}

void Search::sum_up() {
  now_cost_ = 0;
  for (const Roll& roll : now_) now_cost_ += roll.cost;
  if (!whole_ || now_cost_ < best_cost_) {
    best_ = now_;
    best_cost_ = now_cost_;
  }
}

void Search::begin(const std::vector<Pattern>& rolls) {
  for (const Pattern& pattern : rolls) {
    const Roll roll = roll_of(keep(pattern));
    for (std::int64_t i = 0; i < pattern.copies; ++i) {
      now_.push_back(roll);
      auto& stock = stock_left_[static_cast<std::size_t>(pattern.stock)];
      if (stock > 0) --stock;
    }
    for (std::size_t t = 0; t < left_.size(); ++t) {
      left_[t] -= pattern.counts[t] * static_cast<std::int32_t>(pattern.copies);
    }
  }
}

void Search::step(std::int64_t budget) {
  if (stuck_) return;
  if (!whole_) {
    fill_one();
  } else {
    attempt(budget);
  }
}

void Search::fill_one() {
  if (std::all_of(left_.begin(), left_.end(), [](std::int32_t n) { return n <= 0; })) {
    sum_up();
    whole_ = true;
    return;
  }
  std::vector<float> values;
  for (const double price : prices_) values.push_back(static_cast<float>(price));
  const std::vector<char> widths(grid_.different_widths.size(), 1);
  Fill::Wanted wanted;
  wanted.left = &left_;
  wanted.values = &values;
  wanted.widths = &widths;
  wanted.stock = &stock_left_;
  double rest = 0;
  for (std::size_t t = 0; t < left_.size(); ++t) rest += prices_[t] * std::max(left_[t], 0);
  Fill::Found found = fill_.best(wanted, static_cast<std::int64_t>(rest * 1.5) + smallest_);
  if (!found.any) {
    stuck_ = true;
    sum_up();
    return;
  }
  std::int32_t times = std::numeric_limits<std::int32_t>::max();
  for (std::size_t t = 0; t < left_.size(); ++t) {
    if (found.pattern.counts[t] > 0) times = std::min(times, left_[t] / found.pattern.counts[t]);
  }
  auto& stock = stock_left_[static_cast<std::size_t>(found.pattern.stock)];
  if (stock >= 0) times = static_cast<std::int32_t>(std::min<std::int64_t>(times, stock));
  times = std::max(times, 1);
  if (stock >= 0) stock -= times;
  for (std::size_t t = 0; t < left_.size(); ++t) left_[t] -= times * found.pattern.counts[t];
  const Roll roll = roll_of(keep(std::move(found.pattern)));
  for (std::int32_t i = 0; i < times; ++i) now_.push_back(roll);
}

std::vector<std::size_t> Search::pick(std::size_t count) {
  std::vector<std::size_t> out;
  double sum = 0;
  for (const Roll& roll : now_) sum += std::max(roll.loss, 0.0) + 0.002 * static_cast<double>(roll.cost);
  while (out.size() < count) {
    std::size_t chosen = now_.size();
    if (random_.chance(0.5)) {
      double at = random_.unit() * sum;
      for (std::size_t i = 0; i < now_.size(); ++i) {
        at -= std::max(now_[i].loss, 0.0) + 0.002 * static_cast<double>(now_[i].cost);
        if (at < 0) {
          chosen = i;
          break;
        }
      }
    }
    if (chosen == now_.size()) {
      chosen = static_cast<std::size_t>(random_.between(0, static_cast<std::int64_t>(now_.size()) - 1));
    }
    if (std::find(out.begin(), out.end(), chosen) == out.end()) out.push_back(chosen);
  }
  return out;
}

void Search::some_lengths(const std::vector<std::int32_t>& left) {
  lengths_.clear();
  std::vector<std::int32_t> alongs;
  for (const Oriented& o : grid_.oriented) {
    const Option& option = problem_.options[static_cast<std::size_t>(o.option)];
    bool wanted = true;
    for (const Share& share : option.gives)
      wanted = wanted && left[static_cast<std::size_t>(share.type)] >= share.count;
    if (wanted) alongs.push_back(o.along);
  }
  if (alongs.empty()) return;
  const auto any = [&] {
    return alongs[static_cast<std::size_t>(random_.between(0, static_cast<std::int64_t>(alongs.size()) - 1))];
  };
  for (int i = 0; i < 8; ++i) {
    std::int32_t sum = any() + any();
    if (random_.chance(0.3)) sum += any();
    lengths_.push_back(sum);
  }
}

void Search::attempt(std::int64_t budget) {
  ++attempts_;
  overhead_ += 2000;
  const double progress =
      std::min(1.0, static_cast<double>(work()) / static_cast<double>(std::max<std::int64_t>(budget, 1)));
  const auto most = std::min(kOpenMost, now_.size());
  // One after the other: compilers differ in which argument they work out first.
  const std::int64_t few = random_.between(2, 6);
  const auto count =
      static_cast<std::size_t>(std::min(random_.between(1, static_cast<std::int64_t>(most)), few));
  const std::vector<std::size_t> open = pick(std::min(count, now_.size()));
  std::vector<std::int32_t> left(left_.size(), 0);
  std::vector<char> widths(grid_.different_widths.size(), 0);
  std::vector<std::int64_t> stock = stock_left_;
  std::int64_t old = 0;
  for (const std::size_t i : open) {
    const Pattern& pattern = store_[now_[i].pattern];
    for (std::size_t t = 0; t < left.size(); ++t) left[t] += pattern.counts[t];
    widths[static_cast<std::size_t>(grid_.width_of[static_cast<std::size_t>(pattern.stock)])] = 1;
    auto& have = stock[static_cast<std::size_t>(pattern.stock)];
    if (have >= 0) ++have;
    old += now_[i].cost;
  }
  const std::int64_t some = random_.between(1, 6);
  for (std::int64_t i = 0; i < some; ++i) {
    widths[static_cast<std::size_t>(random_.between(0, static_cast<std::int64_t>(widths.size()) - 1))] = 1;
  }
  const double spread = 0.02 + 0.15 * random_.unit() * random_.unit();
  std::vector<float> values;
  for (const double price : prices_) {
    values.push_back(static_cast<float>(price * (1 + spread * (2 * random_.unit() - 1))));
  }
  some_lengths(left);
  // A little dearer is let through early on, less and less of it.
  const double warm = 0.15 * static_cast<double>(smallest_) * (1 - progress) * random_.unit();
  const std::int64_t allowed = old + static_cast<std::int64_t>(progress < 1 ? warm : 0);
  std::int64_t cost = 0;
  std::vector<Roll> made;
  const std::size_t kept = store_.size();
  const auto give_up = [&] { store_.resize(kept); };
  Fill::Wanted wanted;
  wanted.left = &left;
  wanted.values = &values;
  wanted.widths = &widths;
  wanted.stock = &stock;
  wanted.lengths = &lengths_;
  for (;;) {
    double rest = 0;
    bool any = false;
    for (std::size_t t = 0; t < left.size(); ++t) {
      rest += least_[t] * left[t];
      any = any || left[t] > 0;
    }
    if (!any) break;
    if (static_cast<double>(cost) + rest > static_cast<double>(allowed)) return give_up();
    Fill::Found found = fill_.best(wanted, allowed - cost);
    if (!found.any) return give_up();
    for (std::size_t t = 0; t < left.size(); ++t) left[t] -= found.pattern.counts[t];
    auto& have = stock[static_cast<std::size_t>(found.pattern.stock)];
    if (have > 0) --have;
    store_.push_back(std::move(found.pattern));
    made.push_back(roll_of(store_.size() - 1));
    cost += made.back().cost;
    if (cost > allowed) return give_up();
  }
  stock_left_ = stock;
  std::vector<std::size_t> gone = open;
  std::sort(gone.begin(), gone.end());
  for (std::size_t i = gone.size(); i-- > 0;) now_.erase(now_.begin() + static_cast<std::ptrdiff_t>(gone[i]));
  now_.insert(now_.end(), made.begin(), made.end());
  sum_up();
}

Solution Search::solution() const {
  Solution out;
  std::map<std::size_t, std::size_t> at;
  std::vector<std::int32_t> widths;
  for (const Roll& roll : best_) {
    const auto known = at.find(roll.pattern);
    if (known != at.end()) {
      ++out.patterns[known->second].copies;
    } else {
      at.emplace(roll.pattern, out.patterns.size());
      out.patterns.push_back(store_[roll.pattern]);
      out.patterns.back().copies = 1;
    }
    out.cost += cost_of(problem_, store_[roll.pattern]);
    out.cuts += cuts_of(problem_, store_[roll.pattern]);
    widths.push_back(problem_.stocks[static_cast<std::size_t>(store_[roll.pattern].stock)].width);
  }
  std::sort(widths.begin(), widths.end());
  widths.erase(std::unique(widths.begin(), widths.end()), widths.end());
  out.widths = static_cast<std::int32_t>(widths.size());
  return out;
}

}  // namespace lapwright::cutting
