// What the optimiser sees: rectangles, stock and money in whole numbers. One problem per code of lead.
//
// Lengths are in whole units that the caller picks (a millimetre for lead); money in whole units as well,
// fine enough that a pattern's cost is exact. Kerf is already in: a rectangle and a stock size each grew by
// it once.
#pragma once

#include <cstdint>
#include <vector>

namespace lapwright::cutting {

inline constexpr std::int64_t kUnlimited = -1;

// A size that can be had. `width` lies across the roll, `length` along it.
struct Stock {
  std::int32_t width = 0;
  std::int32_t length = 0;
  std::int64_t cost = 0;                // of taking one, less what its lead is worth as scrap; >= 0
  std::int64_t available = kUnlimited;  // how many there are
};

// So many pieces of one type.
struct Share {
  std::int32_t type = 0;
  std::int32_t count = 0;
  friend bool operator==(const Share&, const Share&) = default;
};

// A rectangle that yields pieces: one piece in its box, or several that lie head to tail in it.
struct Option {
  std::int32_t along = 0;   // side that lies along the roll when it is not turned
  std::int32_t across = 0;  // the other side
  bool may_turn = true;     // a quarter
  std::vector<Share> gives;
};

// What is left at the end of a roll, over its whole width, or along its side, over its whole length, may be
// worth keeping: as much for each square unit, once it is large enough.
struct Keep {
  std::int32_t least_length = 0;  // the longer side
  std::int32_t least_width = 0;   // the shorter
  // Worth of a million square units, above scrap, in the problem's money; 0: nothing is worth keeping.
  std::int64_t per_million = 0;
};

enum class FirstCut : std::uint8_t { either, across, along };

// REQUIRES at least one option for every type with demand; options' sides > 0; sides of stock > 0; no stock
// worth more kept whole than it costs.
struct Problem {
  std::vector<Stock> stocks;
  std::vector<std::int64_t> demand;  // of each type
  std::vector<Option> options;
  Keep keep;
  FirstCut first_cut = FirstCut::either;
  // Only sections of single strips of single pieces, as published problems ask for: no strip is cut across
  // again.
  bool two_stage_only = false;
  std::int64_t cut_cost = 0;    // of one cut, in the problem's money
  std::int64_t width_cost = 0;  // of each different width of stock taken
};

// How one piece of stock is cut: across the roll into sections, each section along into strips, each strip
// across into cells, each cell trimmed to its option. What is not named is left over at the far end.
struct Cell {
  std::int32_t option = 0;
  bool turned = false;
  std::int32_t count = 0;  // equal cells, one after the other
};
struct Strip {
  std::int32_t width = 0;
  std::int32_t copies = 1;  // equal strips side by side
  std::vector<Cell> cells;
};
struct Section {
  std::int32_t length = 0;
  std::int32_t copies = 1;  // equal sections, one after the other
  std::vector<Strip> strips;
};
struct Pattern {
  std::int32_t stock = 0;
  std::int64_t copies = 1;
  std::vector<Section> sections;
  std::vector<std::int32_t> counts;  // pieces of each type that one copy yields
};

struct Solution {
  std::vector<Pattern> patterns;
  std::int64_t cost = 0;    // of the stock taken, less the worth of what is kept
  std::int64_t cuts = 0;    // equal parts that are cut together count once
  std::int32_t widths = 0;  // different widths of stock
};

// Sides as they lie: along and across the roll.
inline std::int32_t lies_along(const Option& o, bool turned) {
  return turned ? o.across : o.along;
}
inline std::int32_t lies_across(const Option& o, bool turned) {
  return turned ? o.along : o.across;
}

}  // namespace lapwright::cutting
