// Which values a rule can have at all, whoever sets it: a bound against slips and against plans without end,
// not a judgement of the trade (that is Rule::least and Rule::most).
#pragma once

#include <string>
#include <string_view>

namespace lapwright::practice {

struct Possible {
  double least = 0;  // where the rule may not be nought
  double most = 0;
};

// Null for a unit that no rule has.
const Possible* possible_in(std::string_view unit);
bool is_possible(double value, std::string_view unit, bool may_be_zero);
// "1 to 100000 mm"
std::string said_possible(std::string_view unit, bool may_be_zero);

}  // namespace lapwright::practice
