// One more roll filled from the pieces that are still wanted, as well as the values of the pieces tell.
//
// Three stages: sections across the roll, strips along each section, pieces across each strip. The dynamic
// programmes remember what their best filling so far uses up, so that no piece is cut more often than it is
// wanted; that makes them quick and nearly, not wholly, best. Nothing proven rests on this.
#pragma once

#include "grid.h"
#include "pile.h"
#include "strip_table.h"

#include <lapwright/cutting/problem.h>

#include <cstdint>
#include <vector>

namespace lapwright::cutting {

class Fill {
 public:
  Fill(const Problem& problem, const Grid& grid);

  struct Wanted {
    const std::vector<std::int32_t>* left = nullptr;  // of each type
    const std::vector<float>* values = nullptr;       // of each type, money
    const std::vector<char>* widths = nullptr;        // of each different width: whether to try it
    const std::vector<std::int64_t>* stock =
        nullptr;  // of each stock: how many may still be taken; −1 any number
    const std::vector<std::int32_t>* lengths =
        nullptr;         // of sections to try beside the pieces' own, in steps
    float per_part = 0;  // taken off for every strip and section: fewer cuts
  };
  struct Found {
    bool any = false;
    bool finishes = false;  // all that was wanted is in it
    double value = 0;
    std::int64_t cost = 0;
    Pattern pattern;
  };
  // The pattern with the most value for its money; with `to_finish`, a cheaper or equal one that takes all
  // that is left is preferred when its cost is at most `finish_within`.
  Found best(const Wanted& wanted, std::int64_t finish_within);

  std::int64_t work() const { return work_; }

 private:
  using Counts = PartCounts;
  struct StripChoice {
    std::int32_t across = 0;
    std::size_t row = 0;
    std::int32_t length = 0;  // of the table's entry
    float value = 0;
    Counts counts;
  };
  struct SectionChoice {
    std::int32_t along = 0;
    float value = 0;
    Counts counts;
    std::vector<std::pair<std::int32_t, std::int32_t>>
        strips;  // index into the strips of this length, copies
  };
  struct Sections {  // of one length
    std::int32_t along = 0;
    std::vector<StripChoice> strips;
  };

  void activate(const Wanted& wanted);
  void strips_of(Sections& sections, bool whole_length);
  void pile_strips(const Sections& sections, const Wanted& wanted);
  void pile_sections(std::size_t width, const Wanted& wanted);
  Pattern pattern_of(std::size_t stock, std::int32_t end) const;

  const Problem& problem_;
  const Grid& grid_;
  std::int64_t work_ = 0;

  std::vector<std::int16_t> active_of_;  // of each type; −1
  std::vector<std::int32_t> type_of_;    // of each active type
  std::vector<std::uint16_t> limit_;     // of each active type
  std::vector<StripItem<float>> items_;
  std::vector<Counts> gives_;  // of each item
  StripTable<float> table_;
  std::vector<Sections> sections_;
  std::vector<std::vector<SectionChoice>> choices_;  // of each different width, by length of section
  std::vector<std::int32_t> ends_;
  Pile strips_pile_;
  std::vector<Pile> section_piles_;  // of each different width
};

}  // namespace lapwright::cutting
