// What was found out, as a sentence and its values.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace lapwright::job {

// A value of a text: a number in its unit, or a word. Lengths have unit "mm" and are shown as the job asks.
struct Param {
  std::string name;
  std::variant<double, std::string> value;
  std::string unit;
};
using Params = std::vector<Param>;

enum class Level : std::uint8_t { note, doubt, wrong };
std::string_view name_of(Level v);

struct Finding {
  Level level = Level::note;
  std::string rule;  // names its text in the catalogue
  Params params;
  std::string text;
  std::optional<double> value;
  std::optional<double> limit;
  std::string source;
  std::string where;  // "rear / house wall / course 3"; JSON path when it is about input
};

}  // namespace lapwright::job
