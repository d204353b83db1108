// How far one piece of lead laps over the next down a slope.
//
// A lap of s on a plane at pitch φ holds back a rise of s·sin φ, so lap = rise / sin φ, and never less than
// the least. Published: 150 at 30° and over, 200 at 22°, 250 at 17.5°, 290 at 15°, 390 at 11° (lead trade
// body's manual, as quoted). The pitch is the piece's own; where custom takes the flatter one of the units
// beside it, the rule lap.pitch_less says by how much.
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <string_view>

namespace lapwright::practice {

// Of a pitch that lap.pitch_less brings under 1° the lap is that of 1°.
Length lap_down_slope(Angle pitch, job::Exposure exposure, const Pack& pack);

// The one of its rules that decides it.
const Rule& lap_down_slope_rule(Angle pitch, job::Exposure exposure, const Pack& pack);

// The same as a figure that can answer why; `from` says whose pitch it is ("survey", "figure true_pitch").
job::Figure lap_down_slope_figure(std::string_view name, Angle pitch, std::string_view from,
                                  job::Exposure exposure, const Pack& pack);

}  // namespace lapwright::practice
