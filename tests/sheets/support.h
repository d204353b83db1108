// Jobs for the sheets, and the plan behind them.
#pragma once

#include "planning.h"

#include <lapwright/base/generator.h>
#include <lapwright/sheets/sheets.h>

#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace lapwright::sheets::test {

inline std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream out;
  out << file.rdbuf();
  return out.str();
}

inline Sources sources_of(const engine::Planned& planned) {
  return {planned.survey, planned.plan, planned.pack, planned.catalogue};
}

// A sound roof with two side walls, of sizes and names that vary widely.
inline std::string random_job(Generator& g) {
  std::string name = "wall";
  if (g.chance(0.2)) name = std::string(78, 'W');
  if (g.chance(0.2)) name = "стена 壁 a very long name of a wall that goes on and on";
  const auto wall = [&](const char* hand, const std::string& called) {
    const std::string kind = g.chance(0.6)
                                 ? fmt::format(R"("kind": "brick", "course": {}, "first_joint": {})",
                                               g.between(65, 86), g.between(5, 60))
                                 : std::string(R"("kind": "stone")");
    return fmt::format(
        R"({{"name": "{}", "kind": "side", "hand": "{}", "from": {}, "gap": {}, "wall": {{{}}}}})", called,
        hand, g.chance(0.3) ? g.between(100, 900) : 0, g.between(3, 15), kind);
  };
  const bool slate = g.chance(0.4);
  const std::string covering =
      slate
          ? std::string(
                R"("kind": "slate", "length": 500, "width": 250, "thickness": [5, 1], "camber": [2, 1])")
          : std::string(
                R"("kind": "plain-tile", "length": 265, "width": 165, "thickness": [12, 1], "camber": [3, 2], "max_gauge": 100)");
  return fmt::format(
      R"({{"format": "lapwright-job/1", "title": "{}", "unit": "mm"{}, "site": {{"exposure": "moderate"}},
 "slopes": [{{"name": "rear", "pitch": {}, "rafter": {}, "width": {}, "overhang": {}, "covering": {{{}}},
 "junctions": [{}, {}]}}]}})",
      g.chance(0.2) ? std::string(198, 'm') + " Ж" : "A roof", g.chance(0.4) ? R"(, "show": "in")" : "",
      g.between(36, 60), g.between(1500, 9000), g.between(3000, 8000), g.between(30, 60), covering,
      wall("left", name), wall("right", name + " 2"));
}

}  // namespace lapwright::sheets::test
