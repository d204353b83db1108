// Plans of the optimiser, measured again: whole, never below what is proven, the same every time.
#include "measured.h"
#include "open_data.h"

#include <lapwright/base/generator.h>
#include <lapwright/cutting/cutter.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <limits>

namespace lapwright::cutting {
namespace {

Solution solved(Cutter& cutter) {
  while (cutter.step()) {
  }
  return cutter.best();
}

Problem random_problem(Generator& random, std::int64_t types, std::int64_t most_each, bool limited = false) {
  Problem out;
  for (std::int64_t t = 0; t < types; ++t) {
    Option option;
    option.along = static_cast<std::int32_t>(random.between(50, 1500));
    option.across = static_cast<std::int32_t>(random.between(50, 400));
    option.may_turn = random.chance(0.8);
    option.gives = {{static_cast<std::int32_t>(t), 1}};
    out.options.push_back(option);
    out.demand.push_back(random.between(1, most_each));
  }
  for (const std::int32_t width : {400, 450, 600}) {
    for (const std::int32_t length : {3000, 6000}) {
      out.stocks.push_back(
          {width, length, std::int64_t{width} * length / 100 + random.between(0, 900), kUnlimited});
    }
  }
  if (limited) {
    for (int i = 0; i < 4; ++i) {
      out.stocks.push_back({static_cast<std::int32_t>(random.between(100, 600)),
                            static_cast<std::int32_t>(random.between(300, 3000)), random.between(0, 500),
                            random.between(1, 2)});
    }
  }
  return out;
}

TEST(Cutter, plans_are_whole_and_above_their_bounds) {
  Generator random(41);
  for (int i = 0; i < 40; ++i) {
    const Problem problem = random_problem(random, random.between(1, 14), 30, i % 3 == 0);
    Cutter cutter(problem, 1'500'000);
    const Solution plan = solved(cutter);
    EXPECT_EQ(sample::what_is_wrong(problem, plan), "") << i;
    EXPECT_LE(cutter.straight(), plan.cost);
    // A third stage may beat all strip cutting, a two-stage plan may not.
    if (cutter.exact_strips() >= 0) {
      EXPECT_LE(cutter.strips().bound, cutter.exact_strips());
      EXPECT_LE(plan.cost, cutter.exact_strips());
    }
  }
}

TEST(Cutter, offcuts_worth_keeping_lower_the_cost_and_the_bound) {
  Generator random(42);
  for (int i = 0; i < 12; ++i) {
    Problem problem = random_problem(random, random.between(2, 8), 12);
    Cutter plain(problem, 1'000'000);
    const std::int64_t cost = solved(plain).cost;
    problem.keep = {500, 150, 6000};
    Cutter keeps(problem, 1'000'000);
    const Solution plan = solved(keeps);
    EXPECT_EQ(sample::what_is_wrong(problem, plan), "");
    std::vector<double> areas;
    for (const Option& option : problem.options)
      areas.push_back(static_cast<double>(option.along) * option.across);
    EXPECT_LE(area_bound(problem, areas), plan.cost);
    EXPECT_LE(plan.cost, cost + cost / 50);
    EXPECT_EQ(keeps.straight(), 0);
  }
}

TEST(Cutter, same_input_same_plan_and_slices_do_not_matter) {
  Generator random(43);
  const Problem problem = random_problem(random, 12, 20);
  Cutter one(problem, 3'000'000);
  Cutter two(problem, 3'000'000);
  const Solution a = solved(one);
  std::int64_t last = std::numeric_limits<std::int64_t>::max();
  double progress = 0;
  while (two.step()) {
    EXPECT_GE(two.progress(), progress - 1e-9);
    progress = two.progress();
    if (!two.has_plan()) continue;
    const Solution so_far = two.best();
    EXPECT_EQ(sample::what_is_wrong(problem, so_far), "");
    EXPECT_LE(so_far.cost, last);
    last = so_far.cost;
  }
  const Solution b = two.best();
  ASSERT_EQ(a.patterns.size(), b.patterns.size());
  for (std::size_t i = 0; i < a.patterns.size(); ++i) {
    EXPECT_EQ(a.patterns[i].stock, b.patterns[i].stock);
    EXPECT_EQ(a.patterns[i].counts, b.patterns[i].counts);
  }
  EXPECT_EQ(a.cuts, b.cuts);
}

// More work is never worse. Weighing cuts gives plans with no more of them.
TEST(Cutter, effort_pays_and_cuts_can_be_weighed) {
  Generator random(44);
  Problem problem = random_problem(random, 10, 25);
  Cutter little(problem, 1);
  Cutter more(problem, 6'000'000);
  const Solution quick = solved(little);
  const Solution better = solved(more);
  EXPECT_EQ(sample::what_is_wrong(problem, quick), "");
  EXPECT_LE(better.cost, quick.cost);
  problem.cut_cost = 200;
  Cutter weighed(problem, 6'000'000);
  EXPECT_LE(solved(weighed).cuts, better.cuts);
}

// Stock that does not suffice: what can be cut is, and the rest is named.
TEST(Cutter, too_little_stock) {
  Problem problem;
  problem.options = {{500, 300, true, {{0, 1}}}, {200, 100, true, {{1, 1}}}};
  problem.demand = {5, 3};
  problem.stocks = {{300, 1100, 10, 2}};
  Cutter cutter(problem, 1'000'000);
  const Solution plan = solved(cutter);
  EXPECT_TRUE(cutter.has_plan());
  const std::vector<std::int64_t> missing = cutter.missing();
  EXPECT_GE(missing[0], 1);
  std::vector<std::int64_t> have{0, 0};
  for (const Pattern& pattern : plan.patterns) {
    for (std::size_t t = 0; t < 2; ++t) have[t] += pattern.copies * pattern.counts[t];
  }
  EXPECT_EQ(have[0] + missing[0], 5);
  EXPECT_EQ(have[1] + missing[1], 3);
}

// The published exact values of strip cutting for 20 pieces of 5 types, from an exhaustive search of another
// program.
TEST(Cutter, twenty_pieces_are_solved_outright) {
  LAPWRIGHT_NEEDS_DATA();
  for (int i = 0; i < 10; ++i) {
    const std::string name = "S" + std::to_string(i);
    const Problem problem = sample::synthetic(name);
    Cutter cutter(problem, 1'000'000);
    const Solution plan = solved(cutter);
    const std::vector<std::string> row = sample::row_of("house_synthetic/reference_values.csv", name);
    EXPECT_EQ(std::to_string(cutter.exact_strips()), row[8]) << name;
    EXPECT_LE(plan.cost, cutter.exact_strips());
    EXPECT_EQ(sample::what_is_wrong(problem, plan), "");
  }
}

// Every way to part a handful of pieces among rolls, strips and places, one piece at a time: slow and simple.
std::int64_t by_brute_force(const Problem& problem) {
  std::vector<std::size_t> pieces;
  for (std::size_t t = 0; t < problem.demand.size(); ++t) {
    pieces.insert(pieces.end(), static_cast<std::size_t>(problem.demand[t]), t);
  }
  struct Strip {
    std::int32_t thick = 0;
    std::int32_t used = 0;
  };
  struct Roll {
    std::size_t stock = 0;
    bool across = false;
    std::vector<Strip> strips;
  };
  std::vector<Roll> rolls;
  std::int64_t best = std::numeric_limits<std::int64_t>::max();
  const std::function<void(std::size_t, std::int64_t)> place = [&](std::size_t at, std::int64_t cost) {
    if (cost >= best) return;
    if (at == pieces.size()) {
      best = cost;
      return;
    }
    const Option& option = problem.options[pieces[at]];
    for (const bool turned : {false, true}) {
      if (turned && !option.may_turn) continue;
      const std::int32_t along = lies_along(option, turned);
      const std::int32_t across = lies_across(option, turned);
      for (std::size_t r = 0; r <= rolls.size(); ++r) {
        const bool opened = r < rolls.size();
        for (std::size_t s = 0; s < (opened ? 1 : problem.stocks.size()); ++s) {
          for (const bool direction : {false, true}) {
            if (opened && rolls[r].across != direction) continue;
            if (!opened) rolls.push_back({s, direction, {}});
            const Stock& stock = problem.stocks[rolls[r].stock];
            const std::int32_t thick = direction ? along : across;
            const std::int32_t length = direction ? across : along;
            const std::int32_t capacity = direction ? stock.width : stock.length;
            const std::int32_t room = direction ? stock.length : stock.width;
            for (std::size_t k = 0; k <= rolls[r].strips.size(); ++k) {
              const bool fresh = k == rolls[r].strips.size();
              if (fresh) rolls[r].strips.emplace_back();
              const Strip before = rolls[r].strips[k];
              Strip& strip = rolls[r].strips[k];
              strip.thick = std::max(strip.thick, thick);
              strip.used += length;
              std::int32_t pile = 0;
              for (const Strip& one : rolls[r].strips) pile += one.thick;
              if (strip.used <= capacity && pile <= room) place(at + 1, cost + (opened ? 0 : stock.cost));
              rolls[r].strips[k] = before;
              if (fresh) {
                rolls[r].strips.pop_back();
                break;
              }
            }
            if (!opened) rolls.pop_back();
          }
        }
      }
    }
  };
  place(0, 0);
  return best;
}

TEST(Cutter, tiny_jobs_as_by_brute_force) {
  Generator random(45);
  for (int i = 0; i < 25; ++i) {
    Problem problem;
    for (std::int32_t t = 0; t < 3; ++t) {
      Option option;
      option.along = static_cast<std::int32_t>(random.between(2, 12));
      option.across = static_cast<std::int32_t>(random.between(2, 8));
      option.may_turn = random.chance(0.7);
      option.gives = {{t, 1}};
      problem.options.push_back(option);
      problem.demand.push_back(random.between(1, 2));
    }
    problem.stocks = {{9, 13, 100 + random.between(0, 40), kUnlimited},
                      {12, 20, 190 + random.between(0, 60), kUnlimited}};
    Cutter cutter(problem, 200'000);
    const Solution plan = solved(cutter);
    EXPECT_EQ(cutter.exact_strips(), by_brute_force(problem)) << i;
    EXPECT_EQ(sample::what_is_wrong(problem, plan), "") << i;
  }
}

TEST(Cutter, three_thousand_pieces_of_sixty_types) {
  Generator random(46);
  const Problem problem = random_problem(random, 60, 100);
  Cutter cutter(problem, 20'000'000);
  const Solution plan = solved(cutter);
  EXPECT_EQ(sample::what_is_wrong(problem, plan), "");
  EXPECT_LE(static_cast<double>(plan.cost), 1.03 * static_cast<double>(cutter.strips().bound));
}

TEST(Cutter, a_hundred_thousand_pieces) {
  Generator random(47);
  Problem problem = random_problem(random, 30, 10);
  for (std::int64_t& n : problem.demand) n = 100'000 / 30 + 1;
  Cutter cutter(problem, 5'000'000);
  const Solution plan = solved(cutter);
  EXPECT_EQ(sample::what_is_wrong(problem, plan), "");
  EXPECT_LE(static_cast<double>(plan.cost), 1.01 * static_cast<double>(cutter.strips().bound));
}

// Strip cutting of a house far below what shelves by hand reach, at a small effort.
TEST(Cutter, synthetic_house_is_near_its_bound) {
  LAPWRIGHT_NEEDS_DATA();
  const Problem problem = sample::synthetic("house");
  Cutter cutter(problem, 40'000'000);
  const Solution plan = solved(cutter);
  EXPECT_EQ(sample::what_is_wrong(problem, plan), "");
  EXPECT_LE(static_cast<double>(plan.cost), 1.013 * static_cast<double>(cutter.strips().bound));
}

}  // namespace
}  // namespace lapwright::cutting
