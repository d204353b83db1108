#include "tiny.h"

#include "grid.h"
#include "two_stage.h"

#include <algorithm>
#include <limits>

namespace lapwright::cutting {

namespace {

constexpr std::int32_t kNever = std::numeric_limits<std::int32_t>::max() / 4;

// Sub-multisets of the demand as numbers: digit t counts type t.
class Multisets {
 public:
  explicit Multisets(const std::vector<std::int64_t>& demand) {
    for (const std::int64_t d : demand) {
      weights_.push_back(size_);
      most_.push_back(static_cast<std::int32_t>(d));
      size_ *= static_cast<std::size_t>(d) + 1;
    }
  }
  std::size_t size() const { return size_; }
  std::size_t types() const { return most_.size(); }
  std::size_t weight(std::size_t t) const { return weights_[t]; }
  std::int32_t digit(std::size_t u, std::size_t t) const {
    return static_cast<std::int32_t>(u / weights_[t] % (static_cast<std::size_t>(most_[t]) + 1));
  }
  std::size_t first(std::size_t u) const {
    std::size_t t = 0;
    while (digit(u, t) == 0) ++t;
    return t;
  }

  // Every part of u that has at least one of u's first type.
  template <class See>
  void parts(std::size_t u, See see) const {
    const std::size_t n = types();
    std::vector<std::int32_t> top(n);
    std::vector<std::int32_t> now(n, 0);
    for (std::size_t t = 0; t < n; ++t) top[t] = digit(u, t);
    const std::size_t begin = first(u);
    now[begin] = 1;
    std::size_t part = weights_[begin];
    for (;;) {
      see(part);
      std::size_t t = begin;
      for (; t < n; ++t) {
        if (now[t] < top[t]) {
          ++now[t];
          part += weights_[t];
          break;
        }
        const std::int32_t low = t == begin ? 1 : 0;
        part -= weights_[t] * static_cast<std::size_t>(now[t] - low);
        now[t] = low;
      }
      if (t == n) return;
    }
  }

 private:
  std::vector<std::size_t> weights_;
  std::vector<std::int32_t> most_;
  std::size_t size_ = 1;
};

// Strips of one direction and capacity: how thick the pieces of a multiset need one strip to be, and how thick a pile
// of strips.
struct Piles {
  std::vector<std::int32_t> strip;
  std::vector<std::int32_t> pile;
  std::vector<std::size_t> part;  // the strip on top of the pile
};

class Exact {
 public:
  explicit Exact(const Problem& problem) : problem_(problem), grid_(grid_of(problem)), sets_(problem.demand) {}

  const Multisets& sets() const { return sets_; }

  Piles piles(bool across, std::int32_t capacity) const {
    Piles out;
    out.strip.assign(sets_.size(), kNever);
    std::vector<std::int32_t> thicknesses;
    for (const Oriented& o : grid_.oriented) thicknesses.push_back(across ? o.along : o.across);
    std::sort(thicknesses.begin(), thicknesses.end());
    thicknesses.erase(std::unique(thicknesses.begin(), thicknesses.end()), thicknesses.end());
    std::vector<std::int32_t> sum(sets_.size(), 0);
    for (const std::int32_t thickness : thicknesses) {
      const std::vector<std::int32_t> lengths = lengths_at(across, thickness);
      for (std::size_t u = 1; u < sets_.size(); ++u) {
        const std::size_t t = sets_.first(u);
        sum[u] = std::min(kNever, sum[u - sets_.weight(t)] + lengths[t]);
        if (sum[u] <= capacity && out.strip[u] == kNever) out.strip[u] = thickness;
      }
    }
    out.pile.assign(sets_.size(), kNever);
    out.part.assign(sets_.size(), 0);
    out.pile[0] = 0;
    for (std::size_t u = 1; u < sets_.size(); ++u) {
      sets_.parts(u, [&](std::size_t part) {
        if (out.strip[part] == kNever) return;
        const std::int32_t with = out.strip[part] + out.pile[u - part];
        if (with < out.pile[u]) {
          out.pile[u] = with;
          out.part[u] = part;
        }
      });
    }
    return out;
  }

  // Of each type the shorter way that is no thicker.
  std::vector<std::int32_t> lengths_at(bool across, std::int32_t thickness) const {
    std::vector<std::int32_t> out(sets_.types(), kNever);
    for (const Oriented& o : grid_.oriented) {
      if ((across ? o.along : o.across) > thickness) continue;
      auto& length = out[type_of(o)];
      length = std::min(length, across ? o.across : o.along);
    }
    return out;
  }

  Pattern pattern(std::size_t stock, bool across, std::size_t u) const {
    Pattern out;
    out.stock = static_cast<std::int32_t>(stock);
    const Piles made = piles(across, across ? grid_.widths[stock] : grid_.lengths[stock]);
    Section whole{problem_.stocks[stock].length, 1, {}};
    while (u != 0) {
      const std::size_t part = made.part[u];
      const std::int32_t thickness = made.strip[part];
      Section section{thickness * grid_.step, 1, {}};
      Strip strip{thickness * grid_.step, 1, {}};
      for (std::size_t t = 0; t < sets_.types(); ++t) {
        const std::int32_t n = sets_.digit(part, t);
        if (n == 0) continue;
        const Oriented& o = way_of(across, thickness, t);
        if (across) {
          section.strips.push_back({o.across * grid_.step, n, {{o.option, o.turned, 1}}});
        } else {
          strip.cells.push_back({o.option, o.turned, n});
        }
      }
      if (across) {
        out.sections.push_back(std::move(section));
      } else {
        whole.strips.push_back(std::move(strip));
      }
      u -= part;
    }
    if (!across) out.sections.push_back(std::move(whole));
    out.counts = counts_of(problem_, out.sections);
    return out;
  }

  const Grid& grid() const { return grid_; }

 private:
  std::size_t type_of(const Oriented& o) const {
    return static_cast<std::size_t>(problem_.options[static_cast<std::size_t>(o.option)].gives.front().type);
  }
  const Oriented& way_of(bool across, std::int32_t thickness, std::size_t type) const {
    const std::int32_t length = lengths_at(across, thickness)[type];
    for (const Oriented& o : grid_.oriented) {
      if (type_of(o) == type && (across ? o.along : o.across) <= thickness &&
          (across ? o.across : o.along) == length) {
        return o;
      }
    }
    return grid_.oriented.front();
  }

  const Problem& problem_;
  Grid grid_;
  Multisets sets_;
};

}  // namespace

std::optional<Solution> exact_two_stage(const Problem& problem, std::int64_t work_limit, std::int64_t& work) {
  if (problem.keep.per_million != 0 || problem.cut_cost != 0 || problem.width_cost != 0) return std::nullopt;
  double pairs = 1;
  for (const std::int64_t d : problem.demand) {
    pairs *= static_cast<double>(d + 1) * static_cast<double>(d + 2) / 2;
  }
  for (const Option& option : problem.options) {
    if (option.gives.size() != 1 || option.gives.front().count != 1) return std::nullopt;
  }
  std::vector<std::int32_t> widths;
  std::vector<std::int32_t> lengths;
  for (const Stock& stock : problem.stocks) {
    if (stock.available != kUnlimited) return std::nullopt;
    widths.push_back(stock.width);
    lengths.push_back(stock.length);
  }
  for (auto* sizes : {&widths, &lengths}) {
    std::sort(sizes->begin(), sizes->end());
    sizes->erase(std::unique(sizes->begin(), sizes->end()), sizes->end());
  }
  const double all = pairs * static_cast<double>(widths.size() + lengths.size() + 1);
  if (all > static_cast<double>(work_limit)) return std::nullopt;
  work += static_cast<std::int64_t>(all);

  const Exact exact(problem);
  const Multisets& sets = exact.sets();
  const Grid& grid = exact.grid();
  constexpr std::int64_t kDear = std::numeric_limits<std::int64_t>::max() / 4;
  struct Best {
    std::int64_t cost = kDear;
    std::size_t stock = 0;
    bool across = true;
  };
  std::vector<Best> single(sets.size());
  for (const bool across : {true, false}) {
    if ((across && problem.first_cut == FirstCut::along) || (!across && problem.first_cut == FirstCut::across)) continue;
    std::vector<std::int32_t> capacities = across ? grid.widths : grid.lengths;
    std::sort(capacities.begin(), capacities.end());
    capacities.erase(std::unique(capacities.begin(), capacities.end()), capacities.end());
    for (const std::int32_t capacity : capacities) {
      const Piles piles = exact.piles(across, capacity);
      for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
        if ((across ? grid.widths[s] : grid.lengths[s]) != capacity) continue;
        const std::int32_t room = across ? grid.lengths[s] : grid.widths[s];
        for (std::size_t u = 1; u < sets.size(); ++u) {
          if (piles.pile[u] <= room && problem.stocks[s].cost < single[u].cost) {
            single[u] = {problem.stocks[s].cost, s, across};
          }
        }
      }
    }
  }
  std::vector<std::int64_t> cost(sets.size(), kDear);
  std::vector<std::size_t> part_of(sets.size(), 0);
  cost[0] = 0;
  for (std::size_t u = 1; u < sets.size(); ++u) {
    sets.parts(u, [&](std::size_t part) {
      const std::int64_t with = single[part].cost + cost[u - part];
      if (with < cost[u]) {
        cost[u] = with;
        part_of[u] = part;
      }
    });
  }
  const std::size_t all_pieces = sets.size() - 1;
  if (cost[all_pieces] >= kDear) return std::nullopt;
  Solution out;
  out.cost = cost[all_pieces];
  for (std::size_t u = all_pieces; u != 0; u -= part_of[u]) {
    const Best& best = single[part_of[u]];
    out.patterns.push_back(exact.pattern(best.stock, best.across, part_of[u]));
  }
  return out;
}

}  // namespace lapwright::cutting
