// Several sizes of stock, each at its cost: what we pay, beside what others published.
#include "measured.h"
#include "open_data.h"

#include <lapwright/cutting/cutter.h>

#include <gtest/gtest.h>

#include <string>

namespace lapwright::cutting {
namespace {

Solution solved(const Problem& problem, double effort, std::int64_t& bound) {
  Cutter cutter(problem, static_cast<std::int64_t>(effort * static_cast<double>(kWorkOfASecond)));
  while (cutter.step()) {
  }
  bound = cutter.strips().bound;
  return cutter.best();
}

// Cintra et al. 2008: three sizes, two stages, first cut across; best costs and bounds published since
// (Furini et al. 2012 and others). Two of the published best costs are no sums of stock costs, and are left
// out.
TEST(VariableSizes, gcut_with_three_sizes) {
  LAPWRIGHT_NEEDS_DATA();
  double over = 0;
  int tried = 0;
  for (const bool turning : {false, true}) {
    for (int no = 1; no <= 12; ++no) {
      const Problem problem = sample::two_stage(no, turning);
      std::int64_t bound = 0;
      const Solution plan = solved(problem, 0.15, bound);
      EXPECT_EQ(sample::what_is_wrong(problem, plan), "") << no;
      EXPECT_GE(plan.cost, bound) << no;
      const std::vector<std::string> row = sample::row_of(
          turning ? "vsbpp_2stage_cintra/published_2nhr.csv" : "vsbpp_2stage_cintra/published_2nho.csv",
          "cintra2008/gcut" + std::to_string(no) + "d.txt");
      ASSERT_GE(row.size(), 3U);
      if (!turning && (no == 3 || no == 12)) continue;
      const double best = std::stod(row[1]);
      EXPECT_LE(static_cast<double>(plan.cost), 1.02 * best) << no << " turning " << turning;
      over += static_cast<double>(plan.cost) / best - 1;
      ++tried;
    }
  }
  EXPECT_EQ(tried, 22);
  EXPECT_LE(over / tried, 0.008);
}

// Pisinger & Sigurd 2005: five sizes, single pieces of all shapes, nothing may turn. Theirs need not be
// straight cuts; ours must, and still may not be cheaper than their bound.
TEST(VariableSizes, pisinger_and_sigurd) {
  LAPWRIGHT_NEEDS_DATA();
  std::ifstream in(sample::data_folder() / "vsbpp_pisinger/MB_all.txt");
  int tried = 0;
  double over = 0;
  for (std::string line; std::getline(in, line);) {
    if (!line.starts_with("# MB_C")) continue;
    const std::string name = line.substr(2);
    const int no = std::stoi(name.substr(name.rfind('_') + 1));
    int n = 0;
    int bins = 0;
    int skip = 0;
    in >> n >> bins >> skip;
    Problem problem;
    for (int i = 0; i < bins; ++i) {
      Stock stock;
      in >> stock.width >> stock.length >> skip >> stock.cost;
      problem.stocks.push_back(stock);
    }
    for (int i = 0; i < n; ++i) {
      Option option;
      in >> skip >> option.across >> option.along >> skip;
      option.may_turn = false;
      option.gives = {{i, 1}};
      problem.options.push_back(option);
      problem.demand.push_back(1);
    }
    if (no % 10 != 1) continue;  // one of ten: 50 of them
    std::int64_t strips = 0;
    const Solution plan = solved(problem, 0.03, strips);
    EXPECT_EQ(sample::what_is_wrong(problem, plan), "") << name;
    const std::vector<std::string> row =
        sample::row_of("vsbpp_pisinger/published_oriented.csv", "pisinger2005/" + name);
    ASSERT_GE(row.size(), 3U) << name;
    EXPECT_GE(static_cast<double>(plan.cost), std::stod(row[2])) << name;
    over += static_cast<double>(plan.cost) / std::stod(row[1]) - 1;
    ++tried;
  }
  EXPECT_EQ(tried, 50);
  EXPECT_LE(over / tried, 0.06);
}

}  // namespace
}  // namespace lapwright::cutting
