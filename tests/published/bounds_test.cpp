// Bounds against published values, and against other programs.
#include "column_generation.h"
#include "measured.h"
#include "open_data.h"

#include <lapwright/cutting/bound.h>
#include <lapwright/cutting/cutter.h>
#include <lapwright/cutting/guillotine.h>

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace lapwright::cutting {
namespace {

std::int64_t bound_of(const Problem& problem) {
  ColumnGeneration program(problem);
  while (program.step()) {
  }
  return certify_two_stage(problem, program.proof_prices()).linear;
}

// Cintra & Wakabayashi's table, solved again by others: unconstrained guillotine knapsack, oriented and
// turning.
TEST(Guillotine, all_26_published_optima) {
  LAPWRIGHT_NEEDS_DATA();
  constexpr std::array<std::array<std::int32_t, 2>, 13> kOptima{{{56460, 58136},
                                                                 {60536, 60611},
                                                                 {61036, 61626},
                                                                 {61698, 62265},
                                                                 {246000, 246000},
                                                                 {238998, 240951},
                                                                 {242567, 245866},
                                                                 {246633, 247787},
                                                                 {971100, 971100},
                                                                 {982025, 982025},
                                                                 {980096, 980096},
                                                                 {979986, 988694},
                                                                 {8997780, 9000000}}};
  for (std::size_t no = 1; no <= kOptima.size(); ++no) {
    std::ifstream file(sample::data_folder() / "guillotine_knapsack" /
                       ("gcut" + std::to_string(no) + ".txt"));
    std::size_t types = 0;
    std::int32_t along = 0;
    std::int32_t across = 0;
    file >> types >> along >> across;
    std::vector<GuillotineTable::Item> items;
    std::vector<std::int32_t> values;
    for (std::size_t i = 0; i < types; ++i) {
      std::int32_t l = 0;
      std::int32_t w = 0;
      std::int32_t value = 0;
      file >> l >> w >> value;
      items.push_back({w, l});
      values.push_back(value);
    }
    for (const bool turning : {false, true}) {
      if (turning) {
        for (std::size_t i = 0; i < types; ++i) {
          items.push_back({items[i].along, items[i].across});
          values.push_back(values[i]);
        }
      }
      GuillotineTable table(items, across, along);
      table.fill(values);
      EXPECT_EQ(table.value(across, along), kOptima[no - 1][turning ? 1 : 0])
          << "gcut" << no << " turning " << turning;
      // What it says it is made of is worth as much, and is no larger than the sheet.
      std::int64_t sum = 0;
      std::int64_t area = 0;
      const std::vector<std::int32_t> counts = table.counts(across, along);
      for (std::size_t i = 0; i < counts.size(); ++i) {
        sum += std::int64_t{counts[i]} * values[i];
        area += std::int64_t{counts[i]} * items[i].across * items[i].along;
      }
      EXPECT_EQ(sum, table.value(across, along));
      EXPECT_LE(area, std::int64_t{across} * along);
    }
  }
}

// Cintra et al. 2008 and Furini et al. 2012: lower bounds of 12 problems with three stock sizes, both ways.
TEST(TwoStageBound, all_24_published_bounds_to_the_digit) {
  LAPWRIGHT_NEEDS_DATA();
  for (const bool turning : {false, true}) {
    for (int no = 1; no <= 12; ++no) {
      const std::vector<std::string> row = sample::row_of(
          turning ? "vsbpp_2stage_cintra/published_2nhr.csv" : "vsbpp_2stage_cintra/published_2nho.csv",
          "cintra2008/gcut" + std::to_string(no) + "d.txt");
      ASSERT_GE(row.size(), 3U);
      EXPECT_EQ(std::to_string(bound_of(sample::two_stage(no, turning))), row[2])
          << no << " turning " << turning;
    }
  }
}

// The reference file's values come from another program; its strip-bounded column has whole units, rounded
// up.
TEST(TwoStageBound, synthetic_houses_as_in_the_reference) {
  LAPWRIGHT_NEEDS_DATA();
  for (const std::string name : {"house", "S0", "S5", "M0", "M7", "L1", "L6", "X3", "X12"}) {
    const Problem problem = sample::synthetic(name);
    ColumnGeneration program(problem);
    while (program.step()) {
    }
    const std::vector<std::string> row = sample::row_of("house_synthetic/reference_values.csv", name);
    ASSERT_GE(row.size(), 7U);
    // The reference bounds a type's two ways of lying in one strip together, which tells on the smallest jobs
    // only.
    EXPECT_LE(program.value(), std::stod(row[6]) + 1) << name;
    EXPECT_GE(program.value(), std::stod(name.starts_with("S") ? row[5] : row[6]) - 1) << name;
    std::vector<double> areas;
    for (const Option& option : problem.options)
      areas.push_back(static_cast<double>(option.along) * option.across);
    // Ours counts whole rolls besides.
    EXPECT_GE(static_cast<double>(area_bound(problem, areas)), std::stod(row[3]) - 1) << name;
    Cutter cutter(problem, 20'000'000);
    while (cutter.step()) {
    }
    EXPECT_LE(area_bound(problem, areas), cutter.best().cost) << name;
    EXPECT_LE(cutter.straight(), cutter.best().cost) << name;
  }
}

std::map<std::int32_t, std::int64_t> sizes(std::istream& in, int n, bool with_counts) {
  std::map<std::int32_t, std::int64_t> out;
  for (int i = 0; i < n; ++i) {
    double size = 0;
    std::int64_t count = 1;
    in >> size;
    if (with_counts) in >> count;
    out[static_cast<std::int32_t>(std::lround(size))] += count;
  }
  return out;
}

// Strips cut to lengths only: Schoenfield's hard28 and Wäscher & Gau. The bound never exceeds the optimum,
// and misses it only where the literature says so (BPP14, 119, 175, 359, 716; two of Wäscher's).
TEST(Lengths, hard28_and_waescher) {
  LAPWRIGHT_NEEDS_DATA();
  std::map<std::string, std::int64_t> optimum;
  {
    std::ifstream in(sample::data_folder() / "cutting_1d/known_optima.csv");
    std::string line;
    std::getline(in, line);
    while (std::getline(in, line)) {
      optimum[line.substr(0, line.find(','))] = std::stoll(line.substr(line.rfind(',') + 1));
    }
  }
  int tried = 0;
  int equal = 0;
  for (const std::string file : {"hard28.bpp", "WAE_GAU1.BPP"}) {
    std::ifstream in(sample::data_folder() / "cutting_1d" / file);
    int of_file = 0;
    for (std::string line; std::getline(in, line);) {
      const std::size_t first = line.find('\'');
      if (first == std::string::npos) continue;
      std::string name = line.substr(first + 1, line.find('\'', first + 1) - first - 1);
      std::erase(name, ' ');
      int types = 0;
      std::int32_t capacity = 0;
      in >> types >> capacity;
      const auto pieces = sizes(in, types, true);
      std::int64_t best = -1;
      for (const auto& [known, value] : optimum) {
        const bool same =
            known.size() >= name.size() && known.compare(known.size() - name.size(), name.size(), name) == 0;
        if (same) best = value;
      }
      // One pattern a round: each takes a second or two, so all of them in the long run only.
      const bool all = std::getenv("LAPWRIGHT_LONG") != nullptr;
      if (best < 0 || (++of_file > (file == "hard28.bpp" ? 6 : 15) && !all)) continue;
      const std::int64_t bound = bound_of(sample::lengths(capacity, pieces));
      EXPECT_LE(bound, best) << name;
      EXPECT_GE(bound + 1, best) << name;
      ++tried;
      equal += bound == best ? 1 : 0;
    }
  }
  EXPECT_GE(tried, 15);
  EXPECT_GE(equal,
            tried - (std::getenv("LAPWRIGHT_LONG") == nullptr ? 4 : 7));  // 5 of hard28, 2 of Wäscher's
}

// Falkenauer's uniform sets and triplets, in the OR-Library: the bound rounded up is the optimum on all of
// them.
TEST(Lengths, uniform_and_triplets) {
  LAPWRIGHT_NEEDS_DATA();
  const bool all = std::getenv("LAPWRIGHT_LONG") != nullptr;
  int tried = 0;
  for (int file = 2; file <= 8; ++file) {
    std::ifstream in(sample::data_folder() / ("cutting_1d/binpack" + std::to_string(file) + ".txt"));
    int problems = 0;
    in >> problems;
    const int most = all ? problems : file == 2 || file == 5 ? 6 : 0;
    for (int i = 0; i < most; ++i) {
      std::string name;
      double capacity = 0;
      int n = 0;
      std::int64_t of_its_time = 0;
      in >> name >> capacity >> n >> of_its_time;
      const int scale = file >= 5 ? 10 : 1;  // sizes of triplets have a decimal
      std::map<std::int32_t, std::int64_t> pieces;
      for (int k = 0; k < n; ++k) {
        double size = 0;
        in >> size;
        ++pieces[static_cast<std::int32_t>(std::lround(size * scale))];
      }
      // The file's own value is the best of its time; the list of known optima is what holds.
      const std::vector<std::string> row =
          sample::row_of("cutting_1d/known_optima.csv", "Falkenauer_" + name);
      ASSERT_EQ(row.size(), 6U) << name;
      const Problem problem =
          sample::lengths(static_cast<std::int32_t>(std::lround(capacity * scale)), pieces);
      EXPECT_EQ(bound_of(problem), std::stoll(row[5])) << name;
      ++tried;
    }
  }
  EXPECT_EQ(tried, all ? 140 : 12);
}

}  // namespace
}  // namespace lapwright::cutting
