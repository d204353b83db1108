// Jobs for the sheets, and the plan behind them.
#pragma once

#include "planning.h"

#include <lapwright/base/generator.h>
#include <lapwright/draw/expand.h>
#include <lapwright/sheets/sheets.h>

#include <fmt/format.h>
#include <gtest/gtest.h>

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

inline std::string troubles(const draw::Document& document) {
  std::string out;
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    for (const draw::TextTrouble& t : draw::text_troubles(document.pages[i], 5)) {
      out += fmt::format("page {} ({}): \"{}\" {}\n", i + 1, document.pages[i].title.substr(0, 40), t.text,
                         t.other.empty() ? "leaves the paper" : "lies on \"" + t.other + "\"");
    }
  }
  return out;
}

// Everything drawn lies within the printable paper.
inline bool on_paper(const draw::Page& page) {
  const draw::Box box = draw::extents(page.drawing);
  return draw::Box{5, 5, page.width - 5, page.height - 5}.holds(box, 0.01);
}

inline std::string words_of(const draw::Document& document) {
  std::string out;
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    const draw::Page& page = document.pages[i];
    out += fmt::format("# {} {} ({} things)\n", i + 1, page.title, draw::expand(page.drawing).size());
    for (const draw::Plain& thing : draw::expand(page.drawing)) {
      const auto* text = std::get_if<draw::PlainText>(&thing);
      if (text != nullptr) out += fmt::format("{:.1f} {:.1f}  {}\n", text->at.x, text->at.y, text->text);
    }
  }
  return out;
}

// The first line that differs, as "golden | made"; empty when none does.
inline std::string first_difference(const std::string& golden, const std::string& made) {
  std::istringstream a(golden);
  std::istringstream b(made);
  std::string left;
  std::string right;
  while (true) {
    const bool more_left = static_cast<bool>(std::getline(a, left));
    const bool more_right = static_cast<bool>(std::getline(b, right));
    if (!more_left && !more_right) return "";
    if (more_left != more_right || left != right) return left + " | " + right;
  }
}

// The words of every sheet and where they stand, against tests/sheets/golden/NAME.txt; LAPWRIGHT_BLESS in the
// environment writes that file anew.
inline void expect_golden(const std::string& name, engine::Planned planned) {
  // The fingerprint follows the engine's version, so it is not part of the golden.
  planned.plan.fingerprint = "GOLDEN00";
  planned.plan.engine = "0";
  const std::string made = words_of(compose(sources_of(planned)));
  const std::filesystem::path golden = "tests/sheets/golden/" + name + ".txt";
  if (std::getenv("LAPWRIGHT_BLESS") != nullptr) {
    std::filesystem::create_directories(golden.parent_path());
    std::ofstream(golden, std::ios::binary) << made;
  }
  EXPECT_EQ(first_difference(bytes_of(golden), made), "");
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
