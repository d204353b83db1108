// The known word that somebody most likely meant.
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace lapwright {

// By edits (insert, drop, change, swap of neighbours); nothing when even the nearest is too far to be a slip.
// Of two equally near the first wins.
std::optional<std::string_view> nearest(std::string_view written, std::span<const std::string_view> known);

}  // namespace lapwright
