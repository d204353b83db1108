// The cutting table of docs/cutting.md, made anew:
//
//   scripts/build bench cutting_table && build/bench/cutting_table [EFFORT] [SECONDS] [PROBLEMS]
//
// From the project's folder. The published and synthetic problems lie in ../shared/data/cutting; without them
// only the hundred thousand pieces are cut. Gaps are to the bound on strip cutting, rounded up to what rolls
// can cost; below 0 the plan beats all strip cutting. `hand` is by width, first fit. Times are of the
// processor, so that other programs on the machine do not count.
//
// With SECONDS over 0 the first PROBLEMS of each class (1 unless said otherwise) go to Cbc and to HiGHS as
// integer programs over patterns, one thread each: those of the linear program and those of twelve passes of
// our own. They are compared with our plans for the same problems.
#include "column_generation.h"
#include "hand.h"
#include "open_data.h"
#include "search.h"

#include <lapwright/cutting/cutter.h>

#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace {

using namespace lapwright::cutting;
namespace fs = std::filesystem;

double now() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

struct Class {
  std::string name;
  std::vector<Problem> problems;
};

struct Tally {
  double sum = 0;
  double worst = -1e9;
  int n = 0;
  void add(double value) {
    sum += value;
    worst = std::max(worst, value);
    ++n;
  }
  double mean() const { return n == 0 ? 0 : sum / n; }
};

double gap(std::int64_t cost, std::int64_t bound) {
  return 100 * (static_cast<double>(cost) / static_cast<double>(bound) - 1);
}

// Patterns of the linear program, and those of a few first passes with shaken prices.
std::vector<Pattern> pool_of(const Problem& problem, const ColumnGeneration& program) {
  std::vector<Pattern> pool = program.patterns();
  lapwright::Generator random(3);
  for (int pass = 0; pass < 12; ++pass) {
    std::vector<double> prices = program.prices();
    for (double& price : prices) price *= 1 + (pass == 0 ? 0 : 0.1 * (2 * random.unit() - 1));
    Search search(problem, prices, 1);
    search.begin({});
    while (!search.whole() && !search.stuck()) search.step(1);
    for (const Pattern& pattern : search.solution().patterns) pool.push_back(pattern);
  }
  return pool;
}

void write_program(const Problem& problem, const std::vector<Pattern>& pool, const fs::path& file) {
  std::ofstream lp(file);
  lp << "Minimize\n cost:";
  for (std::size_t p = 0; p < pool.size(); ++p) {
    lp << (p == 0 ? " " : "\n + ") << problem.stocks[static_cast<std::size_t>(pool[p].stock)].cost << " x"
       << p;
  }
  lp << "\nSubject To\n";
  for (std::size_t t = 0; t < problem.demand.size(); ++t) {
    lp << " t" << t << ":";
    for (std::size_t p = 0; p < pool.size(); ++p) {
      if (pool[p].counts[t] != 0) lp << " + " << pool[p].counts[t] << " x" << p << "\n";
    }
    lp << " >= " << problem.demand[t] << "\n";
  }
  lp << "General\n";
  for (std::size_t p = 0; p < pool.size(); ++p) lp << " x" << p << "\n";
  lp << "End\n";
}

// The cost that a solver reached, or 0.
double ask(const std::string& command, const fs::path& answer, const std::string& word) {
  if (std::system(command.c_str()) != 0) return 0;
  std::ifstream in(answer);
  for (std::string line; std::getline(in, line);) {
    const std::size_t at = line.find(word);
    if (at != std::string::npos) return std::atof(line.c_str() + at + word.size());
  }
  return 0;
}

std::vector<std::size_t> singles(const Problem& problem) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < problem.options.size(); ++i) out.push_back(i);
  return out;
}

void run(const Class& one, double effort, double seconds, int asked) {
  Tally ours;
  Tally times;
  Tally bounds;
  Tally hand;
  Tally cbc;
  Tally highs;
  Tally beside;  // ours of the problems that the others were asked
  int proven = 0;
  for (const Problem& problem : one.problems) {
    const double start = now();
    ColumnGeneration program(problem);
    while (program.step()) {
    }
    certify_two_stage(problem, program.prices());
    bounds.add(now() - start);
    const double begin = now();
    Cutter cutter(problem, static_cast<std::int64_t>(effort * static_cast<double>(kWorkOfASecond)));
    while (cutter.step()) {
    }
    times.add(now() - begin);
    const std::int64_t cost = cutter.best().cost;
    const std::int64_t bound = std::max(cutter.strips().linear, cutter.exact_strips());
    ours.add(gap(cost, bound));
    proven += cost <= std::max(bound, cutter.strips().bound) ? 1 : 0;
    hand.add(gap(by_hand(problem, singles(problem)).cost, bound));
    if (seconds <= 0 || beside.n >= asked) continue;
    beside.add(gap(cost, bound));
    const fs::path folder = fs::temp_directory_path() / "lapwright-cutting";
    fs::create_directories(folder);
    write_program(problem, pool_of(problem, program), folder / "a.lp");
    const std::string lp = (folder / "a.lp").string();
    const std::string answer = (folder / "a.txt").string();
    const std::string limit = std::to_string(seconds);
    const double by_cbc =
        ask("cbc '" + lp + "' -sec " + limit + " -threads 0 -solve -solu '" + answer + "' > /dev/null 2>&1",
            answer, "objective value");
    if (by_cbc > 0) cbc.add(gap(static_cast<std::int64_t>(by_cbc + 0.5), bound));
    const double by_highs =
        ask("node bench/cutting/highs.mjs '" + lp + "' " + limit + " > '" + answer + "'", answer, "cost ");
    if (by_highs > 0) highs.add(gap(static_cast<std::int64_t>(by_highs + 0.5), bound));
  }
  std::printf("| %s | %d | %.2f / %.2f | %d | %.2f | %.3f | %.1f |", one.name.c_str(), ours.n, ours.mean(),
              ours.worst, proven, times.mean(), bounds.mean(), hand.mean());
  const auto shown = [](const Tally& tally) {
    if (tally.n > 0) {
      std::printf(" %.2f |", tally.mean());
    } else {
      std::printf(" |");
    }
  };
  if (seconds > 0) {
    shown(beside);
    shown(cbc);
    shown(highs);
  }
  std::printf("\n");
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  const double effort = argc > 1 ? std::atof(argv[1]) : 1;
  const double seconds = argc > 2 ? std::atof(argv[2]) : 0;
  const int asked = argc > 3 ? std::atoi(argv[3]) : 1;
  std::printf("| class | problems | gap %%, mean / worst | proven | s, mean | bound s | hand %% |");
  if (seconds > 0)
    std::printf(" of the first %d: ours %% | Cbc %%, %g s | HiGHS %%, %g s |", asked, seconds, seconds);
  std::printf("\n|---|---|---|---|---|---|---|%s\n", seconds > 0 ? "---|---|---|" : "");
  if (fs::exists(sample::data_folder())) {
    for (const std::string stem : {"house", "S", "M", "L", "X", "Z"}) {
      Class one{stem == "house" ? "synthetic house" : stem, {}};
      for (int i = 0; i < 10; ++i) {
        one.problems.push_back(sample::synthetic(stem == "house" ? stem : stem + std::to_string(i)));
        if (stem == "house") break;
      }
      run(one, effort, seconds, asked);
    }
    for (const bool turning : {false, true}) {
      Class one{turning ? "gcut1d to 12d, turning" : "gcut1d to 12d", {}};
      for (int no = 1; no <= 12; ++no) one.problems.push_back(sample::two_stage(no, turning));
      run(one, effort, seconds, asked);
    }
  } else {
    std::printf("no data at %s\n", sample::data_folder().c_str());
  }
  lapwright::Generator random(47);
  Problem many;
  for (std::int32_t t = 0; t < 30; ++t) {
    Option option;
    option.along = static_cast<std::int32_t>(random.between(50, 1500));
    option.across = static_cast<std::int32_t>(random.between(50, 400));
    option.gives = {{t, 1}};
    many.options.push_back(option);
    many.demand.push_back(100'000 / 30 + 1);
  }
  for (const std::int32_t width : {400, 450, 600}) {
    for (const std::int32_t length : {3000, 6000}) {
      many.stocks.push_back({width, length, std::int64_t{width} * length / 100, kUnlimited});
    }
  }
  run({"100,000 pieces of 30 types", {many}}, effort, 0, 0);
  return 0;
}
