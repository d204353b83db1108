#include "fill.h"

#include "two_stage.h"

#include <algorithm>
#include <cstring>
#include <limits>

namespace lapwright::cutting {

Fill::Fill(const Problem& problem, const Grid& grid) : problem_(problem), grid_(grid) {
  active_of_.assign(problem.demand.size(), -1);
  choices_.resize(grid.different_widths.size());
  section_piles_.resize(grid.different_widths.size());
}

void Fill::activate(const Wanted& wanted) {
  type_of_.clear();
  limit_.clear();
  for (std::size_t t = 0; t < problem_.demand.size(); ++t) {
    active_of_[t] = -1;
    if ((*wanted.left)[t] <= 0) continue;
    active_of_[t] = static_cast<std::int16_t>(type_of_.size());
    type_of_.push_back(static_cast<std::int32_t>(t));
    limit_.push_back(static_cast<std::uint16_t>(
        std::min<std::int32_t>((*wanted.left)[t], std::numeric_limits<std::int16_t>::max())));
  }
  items_.clear();
  for (const Oriented& o : grid_.oriented) {
    const Option& option = problem_.options[static_cast<std::size_t>(o.option)];
    std::int32_t most = std::numeric_limits<std::int16_t>::max();
    float value = 0;
    for (const Share& share : option.gives) {
      most = std::min(most, (*wanted.left)[static_cast<std::size_t>(share.type)] / share.count);
      value += (*wanted.values)[static_cast<std::size_t>(share.type)] * static_cast<float>(share.count);
    }
    if (most <= 0 || value <= 0) continue;
    items_.push_back({o.across, o.along, most, value, o.option, o.turned});
  }
  std::stable_sort(items_.begin(), items_.end(), [](const StripItem<float>& a, const StripItem<float>& b) {
    return a.thickness < b.thickness;
  });
  gives_.clear();
  for (const StripItem<float>& item : items_) {
    Counts counts;
    for (const Share& share : problem_.options[static_cast<std::size_t>(item.option)].gives) {
      counts.emplace_back(active_of_[static_cast<std::size_t>(share.type)],
                          static_cast<std::uint16_t>(share.count));
    }
    gives_.push_back(std::move(counts));
  }
}

bool Fill::enough(const std::uint16_t* used, const Counts& more) const {
  for (const auto& [type, count] : more) {
    if (used[type] + count > limit_[static_cast<std::size_t>(type)]) return false;
  }
  return true;
}

void Fill::strips_of(Sections& sections, bool whole_length) {
  sections.strips.clear();
  if (problem_.two_stage_only && !whole_length) {
    // Single pieces side by side: of each width the best.
    float last = 0;
    std::size_t best = items_.size();
    for (std::size_t k = 0; k < items_.size(); ++k) {
      if (items_[k].length <= sections.along && items_[k].value > last) {
        last = items_[k].value;
        best = k;
      }
      const bool thickest = k + 1 == items_.size() || items_[k + 1].thickness != items_[k].thickness;
      if (!thickest || best == items_.size()) continue;
      sections.strips.push_back({items_[k].thickness, best, -1, items_[best].value, gives_[best]});
      best = items_.size();
    }
    return;
  }
  float last = 0;
  for (std::size_t k = 0; k < items_.size(); ++k) {
    const bool thickest = k + 1 == items_.size() || items_[k + 1].thickness != items_[k].thickness;
    if (!thickest) continue;
    const float value = table_.value(k, sections.along);
    if (value <= last) continue;
    last = value;
    StripChoice choice;
    choice.across = items_[k].thickness;
    choice.row = k;
    choice.length = sections.along;
    choice.value = 0;
    // A type that lies both ways in one strip might be taken too often: what is too much is left out.
    table_.trace(k, sections.along, [&](std::size_t item, std::int32_t copies) {
      for (const auto& [type, count] : gives_[item]) {
        const auto more = static_cast<std::uint16_t>(count * copies);
        bool known = false;
        for (auto& [have, sum] : choice.counts) {
          if (have != type) continue;
          sum = static_cast<std::uint16_t>(sum + more);
          known = true;
        }
        if (!known) choice.counts.emplace_back(type, more);
      }
      choice.value += items_[item].value * static_cast<float>(copies);
    });
    bool sound = true;
    for (const auto& [type, sum] : choice.counts) {
      sound = sound && sum <= limit_[static_cast<std::size_t>(type)];
    }
    if (sound) sections.strips.push_back(std::move(choice));
  }
}

namespace {

// Best piles of parts on 0 to `end`, no type used more often than `limit` has. part(i) gives size, value, counts.
template <class Part>
std::int64_t pile_up(std::int32_t end, const std::vector<Part>& parts, const std::vector<std::uint16_t>& limit,
                     std::vector<float>& values, std::vector<std::int16_t>& last,
                     std::vector<std::uint16_t>& used) {
  const std::size_t m = limit.size();
  const auto size = static_cast<std::size_t>(end) + 1;
  if (values.size() < size) {
    values.resize(size);
    last.resize(size);
  }
  if (used.size() < size * m) used.resize(size * m);
  values[0] = 0;
  last[0] = -1;
  std::fill(used.begin(), used.begin() + static_cast<std::ptrdiff_t>(m), std::uint16_t{0});
  std::int64_t work = 0;
  std::size_t reach = 0;  // parts no larger than x
  for (std::int32_t x = 1; x <= end; ++x) {
    while (reach < parts.size() && parts[reach].size <= x) ++reach;
    float best = values[static_cast<std::size_t>(x - 1)];
    std::int16_t choice = -1;
    for (std::size_t i = 0; i < reach; ++i) {
      const auto from = static_cast<std::size_t>(x - parts[i].size);
      const float with = values[from] + parts[i].value;
      if (with <= best) continue;
      const std::uint16_t* have = &used[from * m];
      bool sound = true;
      for (const auto& [type, count] : *parts[i].counts) {
        sound = sound && have[type] + count <= limit[static_cast<std::size_t>(type)];
      }
      if (!sound) continue;
      best = with;
      choice = static_cast<std::int16_t>(i);
    }
    work += static_cast<std::int64_t>(reach);
    const auto at = static_cast<std::size_t>(x);
    values[at] = best;
    last[at] = choice;
    const std::size_t from = choice < 0 ? at - 1 : at - static_cast<std::size_t>(parts[static_cast<std::size_t>(choice)].size);
    std::memcpy(&used[at * m], &used[from * m], m * sizeof(std::uint16_t));
    if (choice >= 0) {
      for (const auto& [type, count] : *parts[static_cast<std::size_t>(choice)].counts) {
        used[at * m + static_cast<std::size_t>(type)] =
            static_cast<std::uint16_t>(used[at * m + static_cast<std::size_t>(type)] + count);
      }
    }
  }
  return work;
}

struct Part {
  std::int32_t size = 0;
  float value = 0;
  const std::vector<std::pair<std::int16_t, std::uint16_t>>* counts = nullptr;
};

}  // namespace

void Fill::pile_strips(const Sections& sections, const Wanted& wanted) {
  if (sections.strips.empty()) return;
  std::vector<Part> parts;
  for (const StripChoice& strip : sections.strips) {
    parts.push_back({strip.across, strip.value - wanted.per_part, &strip.counts});
  }
  std::int32_t widest = 0;
  for (std::size_t w = 0; w < grid_.different_widths.size(); ++w) {
    if ((*wanted.widths)[w] != 0) widest = grid_.different_widths[w];
  }
  Pile& pile = strips_pile_;
  work_ += pile_up(widest, parts, limit_, pile.values, pile.last, pile.used);
  const std::size_t m = limit_.size();
  for (std::size_t w = 0; w < grid_.different_widths.size(); ++w) {
    if ((*wanted.widths)[w] == 0) continue;
    auto at = static_cast<std::size_t>(grid_.different_widths[w]);
    if (pile.values[at] <= 0) continue;
    SectionChoice choice;
    choice.along = sections.along;
    choice.value = pile.values[at] - wanted.per_part;
    for (std::size_t t = 0; t < m; ++t) {
      if (pile.used[at * m + t] != 0) {
        choice.counts.emplace_back(static_cast<std::int16_t>(t), pile.used[at * m + t]);
      }
    }
    while (at > 0) {
      const std::int16_t last = pile.last[at];
      if (last < 0) {
        --at;
        continue;
      }
      bool known = false;
      for (auto& [strip, copies] : choice.strips) {
        if (strip != last) continue;
        ++copies;
        known = true;
      }
      if (!known) choice.strips.emplace_back(last, 1);
      at -= static_cast<std::size_t>(parts[static_cast<std::size_t>(last)].size);
    }
    choices_[w].push_back(std::move(choice));
  }
}

void Fill::pile_sections(std::size_t width, const Wanted& wanted) {
  std::int32_t longest = 0;
  for (std::size_t s = 0; s < problem_.stocks.size(); ++s) {
    if (static_cast<std::size_t>(grid_.width_of[s]) == width && (*wanted.stock)[s] != 0) {
      longest = std::max(longest, grid_.lengths[s]);
    }
  }
  std::vector<Part> parts;
  for (const SectionChoice& choice : choices_[width]) {
    parts.push_back({choice.along, choice.value, &choice.counts});
  }
  Pile& pile = section_piles_[width];
  work_ += pile_up(longest, parts, limit_, pile.values, pile.last, pile.used);
}

Pattern Fill::pattern_of(std::size_t stock, std::int32_t end) const {
  Pattern out;
  out.stock = static_cast<std::int32_t>(stock);
  const auto width = static_cast<std::size_t>(grid_.width_of[stock]);
  const Pile& pile = section_piles_[width];
  std::vector<std::int32_t> copies(choices_[width].size(), 0);
  for (auto x = static_cast<std::size_t>(end); x > 0;) {
    const std::int16_t last = pile.last[x];
    if (last < 0) {
      --x;
      continue;
    }
    ++copies[static_cast<std::size_t>(last)];
    x -= static_cast<std::size_t>(choices_[width][static_cast<std::size_t>(last)].along);
  }
  for (std::size_t i = copies.size(); i-- > 0;) {
    if (copies[i] == 0) continue;
    const SectionChoice& choice = choices_[width][i];
    const Sections* sections = nullptr;
    for (const Sections& one : sections_) {
      if (one.along == choice.along) sections = &one;
    }
    Section section;
    section.length = choice.along * grid_.step;
    section.copies = copies[i];
    for (const auto& [index, n] : choice.strips) {
      const StripChoice& from = sections->strips[static_cast<std::size_t>(index)];
      Strip strip;
      strip.width = from.across * grid_.step;
      strip.copies = n;
      if (from.length < 0) {
        strip.cells.push_back({items_[from.row].option, items_[from.row].turned, 1});
      } else {
        table_.trace(from.row, from.length, [&](std::size_t item, std::int32_t count) {
          strip.cells.push_back({items_[item].option, items_[item].turned, count});
        });
      }
      section.strips.push_back(std::move(strip));
    }
    std::stable_sort(section.strips.begin(), section.strips.end(),
                     [](const Strip& a, const Strip& b) { return a.width > b.width; });
    out.sections.push_back(std::move(section));
  }
  out.counts = counts_of(problem_, out.sections);
  return out;
}

Fill::Found Fill::best(const Wanted& wanted, std::int64_t finish_within) {
  Found out;
  activate(wanted);
  if (items_.empty()) return out;
  std::int32_t longest = 0;
  for (std::size_t s = 0; s < problem_.stocks.size(); ++s) {
    if ((*wanted.widths)[static_cast<std::size_t>(grid_.width_of[s])] != 0 && (*wanted.stock)[s] != 0) {
      longest = std::max(longest, grid_.lengths[s]);
    }
  }
  const bool across = problem_.first_cut != FirstCut::along;
  const bool along = problem_.first_cut != FirstCut::across;
  if (!problem_.two_stage_only || along) {
    table_.fill(items_, longest);
    work_ += static_cast<std::int64_t>(items_.size()) * longest;
  }
  std::vector<std::pair<std::int32_t, bool>> lengths;
  if (across) {
    for (const StripItem<float>& item : items_) {
      if (item.length <= longest) lengths.emplace_back(item.length, false);
    }
    if (wanted.lengths != nullptr) {
      for (const std::int32_t length : *wanted.lengths) {
        if (length <= longest) lengths.emplace_back(length, false);
      }
    }
  }
  if (along) {
    for (std::size_t s = 0; s < problem_.stocks.size(); ++s) {
      if (grid_.lengths[s] <= longest && (*wanted.stock)[s] != 0) lengths.emplace_back(grid_.lengths[s], true);
    }
  }
  std::sort(lengths.begin(), lengths.end());
  lengths.erase(std::unique(lengths.begin(), lengths.end(),
                            [](const auto& a, const auto& b) { return a.first == b.first; }),
                lengths.end());
  for (auto& choices : choices_) choices.clear();
  sections_.resize(lengths.size());
  for (std::size_t i = 0; i < lengths.size(); ++i) {
    sections_[i].along = lengths[i].first;
    strips_of(sections_[i], lengths[i].second);
    pile_strips(sections_[i], wanted);
  }
  // Longer sections that are worth no more than a shorter one are of no use.
  for (auto& choices : choices_) {
    float most = 0;
    std::erase_if(choices, [&](const SectionChoice& choice) {
      if (choice.value <= most) return true;
      most = choice.value;
      return false;
    });
  }
  for (std::size_t w = 0; w < choices_.size(); ++w) {
    if ((*wanted.widths)[w] != 0 && !choices_[w].empty()) pile_sections(w, wanted);
  }
  std::int64_t total = 0;
  for (const std::int32_t n : *wanted.left) total += std::max(n, 0);
  const std::size_t m = limit_.size();
  double best_ratio = 0;
  std::size_t best_stock = problem_.stocks.size();
  std::int32_t best_end = 0;
  std::size_t finish_stock = problem_.stocks.size();
  std::int32_t finish_end = 0;
  std::int64_t finish_cost = finish_within + 1;
  for (std::size_t s = 0; s < problem_.stocks.size(); ++s) {
    const auto w = static_cast<std::size_t>(grid_.width_of[s]);
    if ((*wanted.widths)[w] == 0 || (*wanted.stock)[s] == 0 || choices_[w].empty()) continue;
    const Pile& pile = section_piles_[w];
    const Stock& stock = problem_.stocks[s];
    const auto look = [&](std::int32_t x) {
      const std::int64_t back =
          worth(problem_.keep, stock.width, stock.length - std::int64_t{x} * grid_.step);
      const std::int64_t cost = stock.cost - back;
      const double value = pile.values[static_cast<std::size_t>(x)];
      if (value <= 0) return;
      std::int64_t taken = 0;
      for (std::size_t t = 0; t < m; ++t) taken += pile.used[static_cast<std::size_t>(x) * m + t];
      const double ratio = value / static_cast<double>(std::max<std::int64_t>(cost, 1));
      if (ratio > best_ratio) {
        best_ratio = ratio;
        best_stock = s;
        best_end = x;
      }
      if (taken == total && cost < finish_cost) {
        finish_cost = cost;
        finish_stock = s;
        finish_end = x;
      }
    };
    const std::int32_t end = grid_.lengths[s];
    if (problem_.keep.per_million != 0) {
      for (std::int32_t x = 1; x < end; ++x) {
        if (pile.last[static_cast<std::size_t>(x)] >= 0) look(x);
      }
    }
    look(end);
  }
  if (best_stock == problem_.stocks.size()) return out;
  out.any = true;
  out.finishes = finish_stock != problem_.stocks.size();
  const std::size_t stock = out.finishes ? finish_stock : best_stock;
  const std::int32_t end = out.finishes ? finish_end : best_end;
  out.value = section_piles_[static_cast<std::size_t>(grid_.width_of[stock])].values[static_cast<std::size_t>(end)];
  out.pattern = pattern_of(stock, end);
  return out;
}

}  // namespace lapwright::cutting
