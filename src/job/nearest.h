// The known word that somebody most likely meant.
#pragma once

#include <optional>
#include <string_view>

#include "words.h"

namespace lapwright::job {

// By edits (insert, drop, change, swap of neighbours); nothing when even the nearest is too far to be a slip.
// Of two equally near the first wins.
std::optional<Word> nearest(std::string_view written, Words known);

}  // namespace lapwright::job
