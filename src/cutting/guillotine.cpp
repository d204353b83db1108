#include <lapwright/cutting/guillotine.h>

#include <algorithm>

namespace lapwright::cutting {

namespace {

// out[k] = max(out[k], a[k] + b[k])
void raise(std::int32_t* out, const std::int32_t* a, const std::int32_t* b, std::size_t n) {
  for (std::size_t k = 0; k < n; ++k) {
    const std::int32_t sum = a[k] + b[k];
    out[k] = out[k] < sum ? sum : out[k];
  }
}

std::int32_t best_sum(const std::int32_t* a, const std::int32_t* b, std::size_t n) {
  std::int32_t best = 0;
  for (std::size_t k = 0; k < n; ++k) {
    const std::int32_t sum = a[k] + b[k];
    best = best < sum ? sum : best;
  }
  return best;
}

}  // namespace

GuillotineTable::Axis GuillotineTable::axis(const std::vector<std::int32_t>& sides, std::int32_t end) {
  std::vector<char> reached(static_cast<std::size_t>(end) + 1, 0);
  reached[0] = 1;
  for (const std::int32_t side : sides) {
    for (std::int32_t x = side; x <= end; ++x) {
      if (reached[static_cast<std::size_t>(x - side)] != 0) reached[static_cast<std::size_t>(x)] = 1;
    }
  }
  Axis out;
  for (std::int32_t x = 0; x <= end; ++x) {
    if (reached[static_cast<std::size_t>(x)] != 0) out.places.push_back(x);
    out.place_at.push_back(static_cast<std::int32_t>(out.places.size()) - 1);
  }
  out.dense = out.places.size() == reached.size();
  return out;
}

GuillotineTable::GuillotineTable(std::vector<Item> items, std::int32_t across, std::int32_t along)
    : items_(std::move(items)) {
  std::vector<std::int32_t> sides;
  for (const Item& item : items_) {
    if (item.across <= across && item.along <= along) sides.push_back(item.along);
  }
  along_ = axis(sides, along);
  sides.clear();
  for (const Item& item : items_) {
    if (item.across <= across && item.along <= along) sides.push_back(item.across);
  }
  across_ = axis(sides, across);
}

std::int64_t GuillotineTable::work() const {
  const auto rows = static_cast<std::int64_t>(along_.places.size());
  const auto columns = static_cast<std::int64_t>(across_.places.size());
  return rows * columns * (rows + columns) / 4;
}

void GuillotineTable::fill(const std::vector<std::int32_t>& values) {
  item_values_ = values;
  const std::size_t rows = along_.places.size();
  const std::size_t columns = across_.places.size();
  values_.assign(rows * columns, 0);
  for (std::size_t k = 0; k < items_.size(); ++k) {
    if (items_[k].along > along_.places.back() || items_[k].across > across_.places.back()) continue;
    const auto i = static_cast<std::size_t>(along_.place_at[static_cast<std::size_t>(items_[k].along)]);
    const auto j = static_cast<std::size_t>(across_.place_at[static_cast<std::size_t>(items_[k].across)]);
    auto& value = values_[i * columns + j];
    value = std::max(value, values[k]);
  }
  std::vector<std::int32_t> backwards(columns);
  for (std::size_t i = 0; i < rows; ++i) {
    std::int32_t* row = &values_[i * columns];
    if (i > 0) {
      const std::int32_t* before = row - columns;
      for (std::size_t j = 0; j < columns; ++j) row[j] = std::max(row[j], before[j]);
    }
    // Cut across: a shorter rectangle and the rest.
    const std::int32_t length = along_.places[i];
    for (std::size_t k = 1; k < i && along_.places[k] * 2 <= length; ++k) {
      const auto rest =
          static_cast<std::size_t>(along_.place_at[static_cast<std::size_t>(length - along_.places[k])]);
      raise(row, &values_[k * columns], &values_[rest * columns], columns);
    }
    // Cut along: within this row.
    for (std::size_t j = 0; j < columns; ++j) {
      std::int32_t best = j > 0 ? std::max(row[j], row[j - 1]) : row[j];
      if (across_.dense) {
        // What is left of j − l for l = 1, 2, ... stands backwards in `backwards`, end to start.
        best = std::max(best, best_sum(row + 1, &backwards[columns - j], j / 2));
      } else {
        const std::int32_t width = across_.places[j];
        for (std::size_t l = 1; l < j && across_.places[l] * 2 <= width; ++l) {
          const auto rest =
              static_cast<std::size_t>(across_.place_at[static_cast<std::size_t>(width - across_.places[l])]);
          best = std::max(best, row[l] + row[rest]);
        }
      }
      row[j] = best;
      backwards[columns - 1 - j] = best;
    }
  }
}

std::int32_t GuillotineTable::value(std::int32_t across, std::int32_t along) const {
  return at(static_cast<std::size_t>(along_.place_at[static_cast<std::size_t>(along)]),
            static_cast<std::size_t>(across_.place_at[static_cast<std::size_t>(across)]));
}

void GuillotineTable::count(std::size_t i, std::size_t j, std::vector<std::int32_t>& out) const {
  for (;;) {
    const std::int32_t value = at(i, j);
    if (value == 0) return;
    if (i > 0 && at(i - 1, j) == value) {
      --i;
      continue;
    }
    if (j > 0 && at(i, j - 1) == value) {
      --j;
      continue;
    }
    for (std::size_t k = 0; k < items_.size(); ++k) {
      if (items_[k].along == along_.places[i] && items_[k].across == across_.places[j] &&
          item_values_[k] == value) {
        ++out[k];
        return;
      }
    }
    bool cut = false;
    for (std::size_t k = 1; k < i && !cut; ++k) {
      const auto rest = static_cast<std::size_t>(
          along_.place_at[static_cast<std::size_t>(along_.places[i] - along_.places[k])]);
      if (at(k, j) + at(rest, j) != value) continue;
      count(k, j, out);
      i = rest;
      cut = true;
    }
    for (std::size_t l = 1; l < j && !cut; ++l) {
      const auto rest = static_cast<std::size_t>(
          across_.place_at[static_cast<std::size_t>(across_.places[j] - across_.places[l])]);
      if (at(i, l) + at(i, rest) != value) continue;
      count(i, l, out);
      j = rest;
      cut = true;
    }
    if (!cut) return;
  }
}

std::vector<std::int32_t> GuillotineTable::counts(std::int32_t across, std::int32_t along) const {
  std::vector<std::int32_t> out(items_.size(), 0);
  count(static_cast<std::size_t>(along_.place_at[static_cast<std::size_t>(along)]),
        static_cast<std::size_t>(across_.place_at[static_cast<std::size_t>(across)]), out);
  return out;
}

}  // namespace lapwright::cutting
