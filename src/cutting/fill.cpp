#include "fill.h"

#include "two_stage.h"

#include <algorithm>
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

void Fill::pile_strips(const Sections& sections, const Wanted& wanted) {
  if (sections.strips.empty()) return;
  std::vector<Pile::Part> parts;
  for (const StripChoice& strip : sections.strips) {
    parts.push_back({strip.across, strip.value - wanted.per_part, &strip.counts});
  }
  std::int32_t widest = 0;
  for (std::size_t w = 0; w < grid_.different_widths.size(); ++w) {
    if ((*wanted.widths)[w] != 0) widest = grid_.different_widths[w];
  }
  ends_.clear();
  for (std::size_t w = 0; w < grid_.different_widths.size(); ++w) {
    if ((*wanted.widths)[w] != 0) ends_.push_back(grid_.different_widths[w]);
  }
  Pile& pile = strips_pile_;
  work_ += pile.fill(widest, parts, limit_, ends_, false);
  const std::size_t m = limit_.size();
  for (std::size_t w = 0; w < grid_.different_widths.size(); ++w) {
    if ((*wanted.widths)[w] == 0) continue;
    const std::int32_t at = grid_.different_widths[w];
    if (pile.value(at) <= 0) continue;
    SectionChoice choice;
    choice.along = sections.along;
    choice.value = pile.value(at) - wanted.per_part;
    const std::uint16_t* used = pile.used(at);
    for (std::size_t t = 0; t < m; ++t) {
      if (used[t] != 0) choice.counts.emplace_back(static_cast<std::int16_t>(t), used[t]);
    }
    pile.trace(at, [&](std::size_t part) {
      for (auto& [strip, copies] : choice.strips) {
        if (strip != static_cast<std::int32_t>(part)) continue;
        ++copies;
        return;
      }
      choice.strips.emplace_back(static_cast<std::int32_t>(part), 1);
    });
    choices_[w].push_back(std::move(choice));
  }
}

void Fill::pile_sections(std::size_t width, const Wanted& wanted) {
  std::int32_t longest = 0;
  ends_.clear();
  for (std::size_t s = 0; s < problem_.stocks.size(); ++s) {
    if (static_cast<std::size_t>(grid_.width_of[s]) != width || (*wanted.stock)[s] == 0) continue;
    longest = std::max(longest, grid_.lengths[s]);
    ends_.push_back(grid_.lengths[s]);
  }
  std::vector<Pile::Part> parts;
  for (const SectionChoice& choice : choices_[width]) {
    parts.push_back({choice.along, choice.value, &choice.counts});
  }
  work_ += section_piles_[width].fill(longest, parts, limit_, ends_, problem_.keep.per_million != 0);
}

Pattern Fill::pattern_of(std::size_t stock, std::int32_t end) const {
  Pattern out;
  out.stock = static_cast<std::int32_t>(stock);
  const auto width = static_cast<std::size_t>(grid_.width_of[stock]);
  std::vector<std::int32_t> copies(choices_[width].size(), 0);
  section_piles_[width].trace(end, [&](std::size_t part) { ++copies[part]; });
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
      if (grid_.lengths[s] <= longest && (*wanted.stock)[s] != 0)
        lengths.emplace_back(grid_.lengths[s], true);
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
      const double value = static_cast<double>(pile.value(x));
      if (value <= 0) return;
      std::int64_t taken = 0;
      const std::uint16_t* used = pile.used(x);
      for (std::size_t t = 0; t < m; ++t) taken += used[t];
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
        if (pile.reach(x) == x) look(x);
      }
    }
    look(end);
  }
  if (best_stock == problem_.stocks.size()) return out;
  out.any = true;
  out.finishes = finish_stock != problem_.stocks.size();
  const std::size_t stock = out.finishes ? finish_stock : best_stock;
  const std::int32_t end = out.finishes ? finish_end : best_end;
  out.value = static_cast<double>(section_piles_[static_cast<std::size_t>(grid_.width_of[stock])].value(end));
  out.pattern = pattern_of(stock, end);
  return out;
}

}  // namespace lapwright::cutting
