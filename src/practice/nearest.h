// The known name that a mistyped one most likely meant.
#pragma once

#include <string_view>
#include <vector>

namespace lapwright::practice {

// Fewest letters to change, add or leave out; the first of equals. REQUIRES that `names` is not empty.
std::string_view nearest(std::string_view typed, const std::vector<std::string_view>& names);

}  // namespace lapwright::practice
