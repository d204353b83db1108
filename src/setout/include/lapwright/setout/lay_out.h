// Set-out: from a slope's measurements to its courses, its units, its nails and the battens' marks.
//
// Margins fill the rafter: the largest gauge is the smaller of the unit's own greatest and what the least
// headlap allows; courses = ceil(rafter / largest), gauge = rafter / courses. A gauge may shrink to fit and
// never grows. Diminishing units: each set but the last keeps its own largest gauge for the courses that it
// was given; the last set fills what is left. Everything is worked in tails; battens follow from how a unit
// hangs.
//
// Everything that stands on the slope is known here, also stacks of another slope that come through the
// ridge, and the valleys and hips that bound it: courses are parted by it and their units cut to it.
//
// Properties: gauge <= largest gauge (to kNoise); tails rise strictly; the margins add up to the rafter;
// every course fills what is free of the slope from side to side with gaps no wider than a joint (plus the
// wall's gap); no unit lies where masonry stands; joints stand where they would on an empty slope, but for
// the units cut at a face.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <cstddef>

namespace lapwright::setout {

// The slope `survey.slopes[index]`. Faults (no_geometry) when the measurements make no courses at all; what
// the trade forbids is a `wrong` finding, and the layout then holds as much as helps to see why.
Result<job::SlopeLayout> lay_out(const job::Survey& survey, std::size_t index, const practice::Pack& pack);

}  // namespace lapwright::setout
