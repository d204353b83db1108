// A short hash that tells one plan from another, so that an old sheet on site is known for old.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace lapwright::engine {

// Eight letters and figures without those that are mistaken for each other (no I, L, O, U, 0, 1). FNV-1a over
// the parts with their lengths, so that moving bytes between parts changes it. Not for security.
std::string fingerprint(const std::vector<std::string_view>& parts);

}  // namespace lapwright::engine
