// Published problems, read where they lie beside the project; a test that does not find them skips with the
// reason.
#pragma once

#include <lapwright/cutting/problem.h>

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace lapwright::cutting::sample {

inline std::filesystem::path data_folder() {
  return "../shared/data/cutting";
}

#define LAPWRIGHT_NEEDS_DATA()                                                                             \
  if (!std::filesystem::exists(sample::data_folder())) {                                                   \
    GTEST_SKIP() << "no open data at " << sample::data_folder() << ": its published values are not tried"; \
  }

// house_synthetic/NAME: pieces and stock, everything may turn.
inline Problem synthetic(const std::string& name) {
  Problem out;
  const auto rows = [&](const std::string& part) {
    std::ifstream file(data_folder() / "house_synthetic" / (name + part));
    std::string line;
    std::getline(file, line);
    std::vector<std::vector<std::int64_t>> found;
    while (std::getline(file, line)) {
      for (char& c : line) c = c == ',' ? ' ' : c;
      std::istringstream words(line);
      std::vector<std::int64_t> row;
      for (std::int64_t value = 0; words >> value;) row.push_back(value);
      if (row.size() == 4) found.push_back(row);
    }
    return found;
  };
  for (const auto& row : rows("_items.csv")) {
    Option option;
    option.across = static_cast<std::int32_t>(row[1]);
    option.along = static_cast<std::int32_t>(row[2]);
    option.gives = {{static_cast<std::int32_t>(out.demand.size()), 1}};
    out.options.push_back(option);
    out.demand.push_back(row[3]);
  }
  for (const auto& row : rows("_bins.csv")) {
    out.stocks.push_back(
        {static_cast<std::int32_t>(row[1]), static_cast<std::int32_t>(row[2]), row[3], kUnlimited});
  }
  return out;
}

// gcut<no>d: three stock sizes, two stages, first cuts across.
inline Problem two_stage(int no, bool may_turn) {
  Problem out;
  std::ifstream file(data_folder() / "vsbpp_2stage_cintra" / ("gcut" + std::to_string(no) + "d.txt"));
  int skip = 0;
  int stocks = 0;
  int types = 0;
  file >> skip >> stocks >> types >> skip >> skip >> skip;
  for (int i = 0; i < stocks; ++i) {
    Stock stock;
    file >> stock.width >> stock.length >> stock.cost;
    out.stocks.push_back(stock);
  }
  for (int i = 0; i < types; ++i) {
    Option option;
    std::int64_t demand = 0;
    file >> option.across >> option.along >> demand >> skip;
    option.may_turn = may_turn;
    option.gives = {{i, 1}};
    out.options.push_back(option);
    out.demand.push_back(demand);
  }
  out.first_cut = FirstCut::across;
  out.two_stage_only = true;
  return out;
}

// A row of a published table by its first column, split at commas.
inline std::vector<std::string> row_of(const std::filesystem::path& file, const std::string& name) {
  std::ifstream in(data_folder() / file);
  for (std::string line; std::getline(in, line);) {
    if (!line.starts_with(name + ",")) continue;
    std::vector<std::string> out;
    std::istringstream cells(line);
    for (std::string cell; std::getline(cells, cell, ',');) out.push_back(cell);
    return out;
  }
  return {};
}

// One-dimensional: a strip 1 wide, cut to lengths.
inline Problem lengths(std::int32_t capacity, const std::map<std::int32_t, std::int64_t>& pieces) {
  Problem out;
  out.stocks.push_back({1, capacity, 1, kUnlimited});
  for (const auto& [length, count] : pieces) {
    Option option;
    option.along = length;
    option.across = 1;
    option.may_turn = false;
    option.gives = {{static_cast<std::int32_t>(out.demand.size()), 1}};
    out.options.push_back(option);
    out.demand.push_back(count);
  }
  out.first_cut = FirstCut::along;
  return out;
}

}  // namespace lapwright::cutting::sample
