// The linear program itself, by other people's solvers: over all patterns that were found, their optimum is
// ours.
#include "column_generation.h"

#include <lapwright/base/generator.h>

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

namespace lapwright::cutting {
namespace {

namespace fs = std::filesystem;

Problem random_problem(Generator& random) {
  Problem out;
  const std::int64_t types = random.between(4, 20);
  for (std::int64_t t = 0; t < types; ++t) {
    Option option;
    option.along = static_cast<std::int32_t>(random.between(10, 300) * 5);
    option.across = static_cast<std::int32_t>(random.between(10, 60) * 5);
    option.gives = {{static_cast<std::int32_t>(t), 1}};
    out.options.push_back(option);
    out.demand.push_back(random.between(1, 60));
  }
  for (const std::int32_t width : {300, 390, 600})
    out.stocks.push_back({width, 6000, width * 60, kUnlimited});
  return out;
}

void write_lp(const Problem& problem, const std::vector<Pattern>& patterns, const fs::path& file) {
  std::ofstream lp(file);
  lp << "Minimize\n cost:";
  for (std::size_t p = 0; p < patterns.size(); ++p) {
    lp << (p == 0 ? " " : "\n + ") << problem.stocks[static_cast<std::size_t>(patterns[p].stock)].cost << " x"
       << p;
  }
  lp << "\nSubject To\n";
  for (std::size_t t = 0; t < problem.demand.size(); ++t) {
    lp << " t" << t << ":";
    for (std::size_t p = 0; p < patterns.size(); ++p) {
      if (patterns[p].counts[t] != 0) lp << " + " << patterns[p].counts[t] << " x" << p << "\n";
    }
    lp << " >= " << problem.demand[t] << "\n";
  }
  lp << "End\n";
}

// The number behind `word` in the answer of a program; −1 where it does not say.
double number_behind(const fs::path& file, const std::string& word) {
  std::ifstream in(file);
  for (std::string line; std::getline(in, line);) {
    const std::size_t at = line.find(word);
    if (at != std::string::npos) return std::stod(line.substr(at + word.size()));
  }
  return -1;
}

// `command` with FILE.lp for IN and FILE.txt for OUT.
void same_value(const std::string& tool, const std::string& package, const std::string& command,
                const std::string& word) {
  if (std::system(("command -v " + tool + " > /dev/null 2>&1").c_str()) != 0) {
    GTEST_SKIP() << "no " << tool << ": install " << package;
  }
  Generator random(5);
  for (int round = 0; round < 6; ++round) {
    const Problem problem = random_problem(random);
    ColumnGeneration program(problem);
    while (program.step()) {
    }
    const fs::path folder = fs::temp_directory_path() / ("lapwright-" + tool + "-" + std::to_string(round));
    fs::create_directories(folder);
    write_lp(problem, program.patterns(), folder / "a.lp");
    std::string line = command;
    for (const auto& [name, file] : {std::pair("IN", "a.lp"), std::pair("OUT", "a.txt")}) {
      line.replace(line.find(name), std::string(name).size(), (folder / file).string());
    }
    ASSERT_EQ(std::system(line.c_str()), 0) << line;
    const double value = number_behind(folder / "a.txt", word);
    EXPECT_NEAR(value, program.value(), 1e-5 * value) << round;
    fs::remove_all(folder);
  }
}

TEST(LinearProgram, glpk_gives_the_same_value) {
  same_value("glpsol", "glpk-utils", "glpsol --lp IN -o OUT > /dev/null 2>&1", "cost = ");
}

TEST(LinearProgram, clp_gives_the_same_value) {
  same_value("clp", "coinor-clp", "clp IN -dualsimplex > OUT 2>&1", "Optimal objective ");
}

}  // namespace
}  // namespace lapwright::cutting
