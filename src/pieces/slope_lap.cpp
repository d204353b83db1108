#include "slope_lap.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/practice/laps.h>

namespace lapwright::pieces {

Angle flattest_rise(const Place& place) {
  return frame_of(place.face, place.slope.pitch.least()).rise;
}

Length lap_down_slope(const Place& place, Angle pitch) {
  return practice::lap_down_slope(pitch, place.survey.exposure, place.pack);
}

const practice::Rule& slope_lap_rule(const Place& place, Angle pitch) {
  return practice::lap_down_slope_rule(pitch, place.survey.exposure, place.pack);
}

job::Figure slope_lap_figure(const Place& place, Angle pitch) {
  return practice::lap_down_slope_figure("lap", pitch, "survey", place.survey.exposure, place.pack);
}

std::optional<EqualPieces> equal_pieces(Length run, Length longest, Length lap) {
  if (longest <= lap) return std::nullopt;
  EqualPieces out;
  if (run > longest + tolerance::kNoise) out.count = whole_up((run - lap) / (longest - lap));
  const auto n = static_cast<double>(out.count);
  out.length = (run + lap * (n - 1)) / n;
  return out;
}

}  // namespace lapwright::pieces
