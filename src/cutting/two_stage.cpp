#include "two_stage.h"

#include <algorithm>
#include <limits>

namespace lapwright::cutting {

namespace {

// Copies in one strip: never more than the demand asks for.
std::int32_t most_copies(const Problem& problem, const Option& option) {
  std::int64_t most = std::numeric_limits<std::int16_t>::max();
  for (const Share& share : option.gives) {
    const std::int64_t demand = problem.demand[static_cast<std::size_t>(share.type)];
    most = std::min(most, (demand + share.count - 1) / share.count);
  }
  return static_cast<std::int32_t>(most);
}

}  // namespace

std::vector<std::int32_t> counts_of(const Problem& problem, const std::vector<Section>& sections) {
  std::vector<std::int32_t> out(problem.demand.size(), 0);
  for (const Section& section : sections) {
    for (const Strip& strip : section.strips) {
      for (const Cell& cell : strip.cells) {
        for (const Share& share : problem.options[static_cast<std::size_t>(cell.option)].gives) {
          out[static_cast<std::size_t>(share.type)] +=
              section.copies * strip.copies * cell.count * share.count;
        }
      }
    }
  }
  return out;
}

template <class V>
TwoStage<V>::TwoStage(const Problem& problem) : problem_(problem), grid_(grid_of(problem)) {
  across_.allowed = problem.first_cut != FirstCut::along;
  along_.allowed = problem.first_cut != FirstCut::across;
  for (Direction* direction : {&across_, &along_}) {
    const bool is_across = direction == &across_;
    if (!direction->allowed) continue;
    for (const Oriented& o : grid_.oriented) {
      StripItem<V> item;
      item.thickness = is_across ? o.along : o.across;
      item.length = is_across ? o.across : o.along;
      item.most = most_copies(problem, problem.options[static_cast<std::size_t>(o.option)]);
      item.option = o.option;
      item.turned = o.turned;
      direction->items.push_back(item);
    }
    std::stable_sort(direction->items.begin(), direction->items.end(),
                     [](const StripItem<V>& a, const StripItem<V>& b) { return a.thickness < b.thickness; });
    const std::vector<std::int32_t>& capacities = is_across ? grid_.widths : grid_.lengths;
    const std::vector<std::int32_t>& piles = is_across ? grid_.lengths : grid_.widths;
    for (std::size_t s = 0; s < capacities.size(); ++s) {
      std::size_t at = 0;
      while (at < direction->stacks.size() && direction->stacks[at].capacity != capacities[s]) ++at;
      if (at == direction->stacks.size()) {
        direction->stacks.emplace_back();
        direction->stacks.back().capacity = capacities[s];
      }
      direction->stack_of.push_back(at);
      Stack& stack = direction->stacks[at];
      const auto size = static_cast<std::size_t>(piles[s]) + 1;
      if (stack.values.size() < size) stack.values.resize(size);
    }
    for (Stack& stack : direction->stacks) stack.last.resize(stack.values.size());
  }
}

template <class V>
void TwoStage<V>::price(Direction& direction, const std::vector<V>& values) {
  for (StripItem<V>& item : direction.items) item.value = values[static_cast<std::size_t>(item.option)];
  const std::int32_t capacity = &direction == &across_ ? grid_.widest : grid_.longest;
  direction.table.fill(direction.items, capacity);
  work_ += static_cast<std::int64_t>(direction.items.size()) * capacity;
  for (Stack& stack : direction.stacks) {
    stack.strips.clear();
    V last{};
    for (std::size_t k = 0; k < direction.items.size(); ++k) {
      const bool thickest =
          k + 1 == direction.items.size() || direction.items[k + 1].thickness != direction.items[k].thickness;
      const V value = direction.table.value(k, stack.capacity);
      if (!thickest || value <= last) continue;  // no better than a thinner strip
      stack.strips.emplace_back(direction.items[k].thickness, k);
      last = value;
    }
    std::vector<V> worth_of;
    for (const auto& strip : stack.strips)
      worth_of.push_back(direction.table.value(strip.second, stack.capacity));
    stack.values[0] = V{};
    stack.last[0] = -1;
    const auto size = static_cast<std::int32_t>(stack.values.size());
    for (std::int32_t x = 1; x < size; ++x) {
      V best = stack.values[static_cast<std::size_t>(x - 1)];
      std::int16_t last_strip = -1;
      for (std::size_t i = 0; i < stack.strips.size(); ++i) {
        const std::int32_t thickness = stack.strips[i].first;
        if (thickness > x) break;
        const V with = stack.values[static_cast<std::size_t>(x - thickness)] + worth_of[i];
        if (with > best) {
          best = with;
          last_strip = static_cast<std::int16_t>(i);
        }
      }
      stack.values[static_cast<std::size_t>(x)] = best;
      stack.last[static_cast<std::size_t>(x)] = last_strip;
    }
    work_ += static_cast<std::int64_t>(stack.strips.size()) * size;
  }
}

template <class V>
void TwoStage<V>::price(const std::vector<V>& prices, V scale) {
  scale_ = scale;
  work_ = 0;
  std::vector<V> values;
  for (const Option& option : problem_.options) {
    V sum{};
    for (const Share& share : option.gives)
      sum += prices[static_cast<std::size_t>(share.type)] * static_cast<V>(share.count);
    values.push_back(sum);
  }
  if (across_.allowed) price(across_, values);
  if (along_.allowed) price(along_, values);
}

template <class V>
void TwoStage<V>::best_end(std::size_t stock, const Direction& direction, bool across, V& best,
                           std::int32_t& at) const {
  const Stack& stack = direction.stacks[direction.stack_of[stock]];
  const std::int32_t end = across ? grid_.lengths[stock] : grid_.widths[stock];
  const Stock& size = problem_.stocks[stock];
  at = end;
  best = stack.values[static_cast<std::size_t>(end)];
  if (problem_.keep.per_million == 0) return;
  for (std::int32_t x = 0; x <= end; ++x) {
    const std::int64_t used = std::int64_t{x} * grid_.step;
    const std::int64_t left = across ? worth(problem_.keep, size.width, size.length - used)
                                     : worth(problem_.keep, size.width - used, size.length);
    const V sum = stack.values[static_cast<std::size_t>(x)] + static_cast<V>(left) * scale_;
    if (sum > best) {
      best = sum;
      at = x;
    }
  }
}

template <class V>
V TwoStage<V>::most(std::size_t stock, bool across) const {
  const Direction& direction = across ? across_ : along_;
  if (!direction.allowed) return V{};
  V best{};
  std::int32_t at = 0;
  best_end(stock, direction, across, best, at);
  return best;
}

template <class V>
V TwoStage<V>::most(std::size_t stock) const {
  return std::max(most(stock, true), most(stock, false));
}

template <class V>
Pattern TwoStage<V>::pattern(std::size_t stock, bool across) const {
  Pattern out;
  out.stock = static_cast<std::int32_t>(stock);
  const Direction& direction = across ? across_ : along_;
  if (!direction.allowed) {
    out.counts.assign(problem_.demand.size(), 0);
    return out;
  }
  V best{};
  std::int32_t x = 0;
  best_end(stock, direction, across, best, x);
  const Stack& stack = direction.stacks[direction.stack_of[stock]];
  std::vector<std::int32_t> copies(stack.strips.size(), 0);
  while (x > 0) {
    const std::int16_t last = stack.last[static_cast<std::size_t>(x)];
    if (last < 0) {
      --x;
      continue;
    }
    ++copies[static_cast<std::size_t>(last)];
    x -= stack.strips[static_cast<std::size_t>(last)].first;
  }
  Section whole;
  whole.length = problem_.stocks[stock].length;
  for (std::size_t i = stack.strips.size(); i-- > 0;) {
    if (copies[i] == 0) continue;
    const std::int32_t thickness = stack.strips[i].first * grid_.step;
    if (across) {
      Section section;
      section.length = thickness;
      section.copies = copies[i];
      direction.table.trace(stack.strips[i].second, stack.capacity, [&](std::size_t k, std::int32_t n) {
        const StripItem<V>& item = direction.table.item(k);
        section.strips.push_back({item.length * grid_.step, n, {{item.option, item.turned, 1}}});
      });
      out.sections.push_back(std::move(section));
    } else {
      Strip strip;
      strip.width = thickness;
      strip.copies = copies[i];
      direction.table.trace(stack.strips[i].second, stack.capacity, [&](std::size_t k, std::int32_t n) {
        const StripItem<V>& item = direction.table.item(k);
        strip.cells.push_back({item.option, item.turned, n});
      });
      whole.strips.push_back(std::move(strip));
    }
  }
  if (!across && !whole.strips.empty()) out.sections.push_back(std::move(whole));
  out.counts = counts_of(problem_, out.sections);
  return out;
}

template class TwoStage<double>;
template class TwoStage<std::int64_t>;

}  // namespace lapwright::cutting
