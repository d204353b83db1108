#include "tiny.h"

#include "grid.h"
#include "two_stage.h"

#include <algorithm>
#include <limits>

namespace lapwright::cutting {

namespace {

constexpr double kPairsMost = 4e6;  // of a multiset and a part of it
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

// Strips of one direction and capacity: how thick the pieces of a multiset need one strip to be, and how
// thick a pile of strips.
struct Piles {
  std::vector<std::int32_t> strip;
  std::vector<std::int32_t> pile;
  std::vector<std::size_t> part;  // the strip on top of the pile
};

class Exact {
 public:
  explicit Exact(const Problem& problem) : problem_(problem), grid_(grid_of(problem)), sets_(problem.demand) {
    list_ways();
  }

  const Multisets& sets() const { return sets_; }

  Piles piles(bool across, std::int32_t capacity) const {
    Piles out;
    out.strip.assign(sets_.size(), kNever);
    std::vector<std::int32_t> thicknesses;
    for (const Oriented& o : grid_.oriented) thicknesses.push_back(across ? o.along : o.across);
    std::sort(thicknesses.begin(), thicknesses.end());
    thicknesses.erase(std::unique(thicknesses.begin(), thicknesses.end()), thicknesses.end());
    for (const std::int32_t thickness : thicknesses) {
      const std::vector<std::int32_t> sum = lengths_of_strips(across, thickness);
      for (std::size_t u = 1; u < sets_.size(); ++u) {
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

  // Of every multiset the shortest strip that holds it and is no thicker.
  std::vector<std::int32_t> lengths_of_strips(bool across, std::int32_t thickness) const {
    std::vector<std::int32_t> out(sets_.size(), kNever);
    out[0] = 0;
    for (std::size_t u = 1; u < sets_.size(); ++u) {
      for (const Way& way : ways_[sets_.first(u)]) {
        if (way.thickness(across) > thickness || !holds(u, *way.option)) continue;
        out[u] = std::min(out[u], out[u - way.weight] + way.length(across));
      }
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
      const std::vector<std::int32_t> lengths = lengths_of_strips(across, thickness);
      for (std::size_t rest = part; rest != 0;) {
        const Way& way = way_of(across, thickness, lengths, rest);
        rest -= way.weight;
        if (across) {
          auto& strips = section.strips;
          const bool again = !strips.empty() && strips.back().cells.front().option == way.lies.option &&
                             strips.back().cells.front().turned == way.lies.turned;
          if (again) ++strips.back().copies;
          if (!again)
            strips.push_back({way.lies.across * grid_.step, 1, {{way.lies.option, way.lies.turned, 1}}});
        } else {
          const bool again = !strip.cells.empty() && strip.cells.back().option == way.lies.option &&
                             strip.cells.back().turned == way.lies.turned;
          if (again) ++strip.cells.back().count;
          if (!again) strip.cells.push_back({way.lies.option, way.lies.turned, 1});
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
  // One option as it lies, with its pieces as a multiset.
  struct Way {
    Oriented lies;
    const Option* option = nullptr;
    std::size_t weight = 0;
    std::int32_t thickness(bool is_across) const { return is_across ? lies.along : lies.across; }
    std::int32_t length(bool is_across) const { return is_across ? lies.across : lies.along; }
  };
  bool holds(std::size_t u, const Option& option) const {
    return std::all_of(option.gives.begin(), option.gives.end(), [&](const Share& share) {
      return sets_.digit(u, static_cast<std::size_t>(share.type)) >= share.count;
    });
  }
  void list_ways() {
    ways_.resize(sets_.types());
    for (const Oriented& o : grid_.oriented) {
      Way way{o, &problem_.options[static_cast<std::size_t>(o.option)], 0};
      for (const Share& share : way.option->gives) {
        way.weight +=
            sets_.weight(static_cast<std::size_t>(share.type)) * static_cast<std::size_t>(share.count);
      }
      for (const Share& share : way.option->gives) ways_[static_cast<std::size_t>(share.type)].push_back(way);
    }
  }
  const Way& way_of(bool across, std::int32_t thickness, const std::vector<std::int32_t>& lengths,
                    std::size_t u) const {
    const std::vector<Way>& ways = ways_[sets_.first(u)];
    for (const Way& way : ways) {
      if (way.thickness(across) <= thickness && holds(u, *way.option) &&
          lengths[u - way.weight] + way.length(across) == lengths[u]) {
        return way;
      }
    }
    return ways.front();
  }

  const Problem& problem_;
  Grid grid_;
  Multisets sets_;
  std::vector<std::vector<Way>> ways_;  // of each type, all that hold it
};

}  // namespace

std::optional<Solution> exact_two_stage(const Problem& problem, std::int64_t work_limit, std::int64_t& work) {
  if (problem.keep.per_million != 0 || problem.cut_cost != 0 || problem.width_cost != 0) return std::nullopt;
  double pairs = 1;
  for (const std::int64_t d : problem.demand) {
    pairs *= static_cast<double>(d + 1) * static_cast<double>(d + 2) / 2;
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
  double states = 1;
  for (const std::int64_t d : problem.demand) states *= static_cast<double>(d + 1);
  const auto ways = static_cast<double>(problem.options.size());
  const double strips = states * 2 * ways * 4 * ways / static_cast<double>(problem.demand.size());
  const double all = (pairs + strips) * static_cast<double>(widths.size() + lengths.size() + 1);
  if (pairs > kPairsMost || all > static_cast<double>(work_limit)) return std::nullopt;
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
    if ((across && problem.first_cut == FirstCut::along) ||
        (!across && problem.first_cut == FirstCut::across))
      continue;
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
