// Laps of pieces that run up a slope beside a face, and how they share it. How far one piece covers the next
// along the flow is practice/laps.h's to say, by the pitch of the foot line.
//
// Pieces of one length share a run: n = ceil((run − lap) / (longest − lap)),
// each (run + (n − 1)·lap) / n long.
//
// Properties: no piece over the longest; pieces less laps add up to the run; a flatter pitch never laps less.
#pragma once

#include "place.h"

#include <lapwright/job/plan.h>

#include <cstdint>
#include <optional>

namespace lapwright::pieces {

// The flattest that the foot line may be, within the survey's spread: beside a wall on any line it is flatter
// than the slope. REQUIRES a face with a foot line.
Angle flattest_rise(const Place& place);

Length lap_down_slope(const Place& place, Angle pitch);
job::Figure slope_lap_figure(const Place& place, Angle pitch);  // "lap"

// The one of its rules that decides it.
const practice::Rule& slope_lap_rule(const Place& place, Angle pitch);

struct EqualPieces {
  std::int64_t count = 1;
  Length length;
};
// Empty when a piece leaves no room for its lap.
std::optional<EqualPieces> equal_pieces(Length run, Length longest, Length lap);

}  // namespace lapwright::pieces
