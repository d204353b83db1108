// Every tolerance of the product, each with its unit and its reason. No stray literals elsewhere.
#pragma once

#include <lapwright/base/units.h>

namespace lapwright::tolerance {

// Floating-point noise on lengths that should be equal: 1 nm. Roofs are < 1e5 mm, doubles carry 16 digits,
// and no formula here loses more than four of them.
inline constexpr Length kNoise = Length::mm(1e-6);

// The grid of flat nets: 1 µm. Two points closer than this are one point.
inline constexpr Length kGrid = Length::mm(1e-3);

// How near a folded panel must come to the plane that it lies on. A tenth of what a hand can cut.
inline constexpr Length kOnPlane = Length::mm(0.1);

// What a hand cuts lead to with snips.
inline constexpr Length kHandCut = Length::mm(3);

// Published laps are rounded to 10; a check against them allows for half of it.
inline constexpr Length kPublishedRounding = Length::mm(5);

static_assert(kNoise < kGrid && kGrid < kOnPlane && kOnPlane < kHandCut && kHandCut < kPublishedRounding);

// A whole count that floating-point noise must not turn into the next one: n courses of 5000/15 are 15,
// not 16.
inline constexpr double kCountNoise = 1e-9;

}  // namespace lapwright::tolerance
