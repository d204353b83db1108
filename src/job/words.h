// The words of every choice in the file formats, in the order of the enumerators.
#pragma once

#include <lapwright/job/detail_list.h>

#include <array>
#include <span>
#include <string_view>

namespace lapwright::job {

using Word = std::string_view;
using Words = std::span<const Word>;

inline constexpr std::array<Word, 4> kExposureWords{"sheltered", "moderate", "severe", "very-severe"};
inline constexpr std::array<Word, 2> kShownInWords{"mm", "in"};
inline constexpr std::array<Word, 4> kCoveringKindWords{"plain-tile", "slate", "profiled-tile", "flat-tile"};
inline constexpr std::array<Word, 3> kNailingWords{"centre", "head", "hung"};
inline constexpr std::array<Word, 2> kMadeWords{"hand", "machine"};
inline constexpr std::array<Word, 5> kJunctionKindWords{"side", "top", "stack", "pipe", "wall"};
inline constexpr std::array<Word, 6> kFaceKindWords{"side", "top", "front", "back", "skew", "round"};
inline constexpr std::array<Word, 2> kHandWords{"left", "right"};
inline constexpr std::array<Word, 3> kWallKindWords{"brick", "stone", "render"};
inline constexpr std::array<Word, 3> kHeadFixingWords{"hooked", "batten", "flush"};
inline constexpr std::array<Word, 2> kFirstUnitWords{"unit", "unit-and-half"};
inline constexpr std::array<Word, 3> kJoinKindWords{"ridge", "hip", "valley"};
inline constexpr std::array<Word, 2> kJoinDetailWords{"open-valley", "mitred"};
inline constexpr std::array<Word, 9> kFoundKindWords{"missing",  "short", "shifted", "pierced", "lap",
                                                     "reversed", "loose", "low",     "detail"};
inline constexpr std::array<Word, 4> kRainWords{"none", "light", "steady", "heavy"};
// Kinds of pieces, as they stand in a plan.
inline constexpr std::array<Word, 15> kPieceWords{
    "soaker",      "step-flashing", "cover-flashing", "step-and-cover", "apron",
    "back-gutter", "saddle",        "secret-gutter",  "corner",         "pipe-slate",
    "pipe-sleeve", "valley",        "valley-saddle",  "mitred-soaker",  "cheek-flashing"};
#define LAPWRIGHT_WORD(name, word) word,
inline constexpr std::array<Word, LAPWRIGHT_DETAIL_COUNT> kDetailWords{LAPWRIGHT_DETAILS(LAPWRIGHT_WORD)};
#undef LAPWRIGHT_WORD
inline constexpr std::array<Word, 2> kCornersWords{"bossed", "welded"};
inline constexpr std::array<Word, 3> kSoakerMetalWords{"aluminium", "zinc", "copper"};
inline constexpr std::array<Word, 7> kStandingWords{"std",      "guide",  "book",  "geom",
                                                    "practice", "memory", "survey"};
inline constexpr std::array<Word, 3> kCutWayWords{"across", "along", "teeth"};
inline constexpr std::array<Word, 4> kRefusalWords{"too-large", "not-stocked", "too-few", "wrong"};
inline constexpr std::array<Word, 9> kPerWords{"piece", "m",   "m2",   "kg",    "l",
                                               "hour",  "day", "week", "length"};
inline constexpr std::array<Word, 5> kGivesWords{"any-rain", "sideways", "driven", "rain-on-wall", "little"};
inline constexpr std::array<Word, 3> kLevelWords{"note", "doubt", "wrong"};

}  // namespace lapwright::job
