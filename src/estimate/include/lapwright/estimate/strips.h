// Arithmetic of strips: pieces cut one after the other from rolls as wide as the pieces, the way a merchant
// is asked. The cutting plan does better where pieces of several widths share a roll.
#pragma once

#include <lapwright/base/units.h>

#include <cstdint>
#include <vector>

namespace lapwright::estimate {

struct RollCount {
  Length length;
  std::int64_t count = 0;
};

// The rolls to buy for these pieces, longest first: pieces are cut longest first into the first roll that has
// room, rolls of the longest length sold; then each roll is bought no longer than it has to be. A piece
// longer than any roll gives an empty answer. REQUIRES lengths above nought.
std::vector<RollCount> rolls_for(std::vector<Length> pieces, std::vector<Length> sold);

// What is left of those rolls when the pieces are cut.
Length left_over(const std::vector<RollCount>& rolls, const std::vector<Length>& pieces);

// Blanks of one size from a roll, in straight cuts across and along, all laid the same way round.
std::int64_t blanks_from(Length roll_length, Length roll_width, Length blank_length, Length blank_width);

}  // namespace lapwright::estimate
