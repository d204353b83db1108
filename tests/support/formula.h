// The formulas that figures carry, worked out again: by a reader of our own and the C library's long double
// functions, which share nothing with the engine that made the values.
//
// Language: numbers, symbols, + - * / ( ), unary minus, and the functions min max ceil floor sin cos tan
// sqrt; angles in degrees.
#pragma once

#include <lapwright/job/plan.h>

#include <map>
#include <string>
#include <string_view>

namespace lapwright::sample {

struct Evaluated {
  long double value = 0;
  std::string complaint;  // empty when the formula could be worked out
};

// Whole counts made of lengths forgive `count_noise` either side of a whole number, as the engine's do.
Evaluated evaluate(std::string_view formula, const std::map<std::string, long double>& symbols);

// Empty when the figure's formula on its terms gives its value: within 1e-9 of it, and when every term is
// used.
std::string complaint_about(const job::Figure& figure);

}  // namespace lapwright::sample
