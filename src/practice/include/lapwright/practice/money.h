// Money as a person reads it.
#pragma once

#include <string>
#include <string_view>

namespace lapwright::practice {

// `hundredths` of the currency (three letters), to the nearest: "£12.40", "12.40 CHF".
std::string money_shown(double hundredths, std::string_view currency);

// A share as percent with two decimals: "0.42 %".
std::string percent_shown(double share);

}  // namespace lapwright::practice
