#include "slope_lap.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/figure.h>

namespace lapwright::pieces {

namespace {

const practice::Rule& rise_rule(const Place& place) {
  return place.pack.rule(is_exposed(place.survey.exposure) ? "lap.rise_severe" : "lap.rise");
}

}  // namespace

Angle flattest_rise(const Place& place) {
  return frame_of(place.face, place.slope.pitch.least()).rise;
}

Length lap_down_slope(const Place& place, Angle pitch) {
  return max(place.pack.length("lap.least"), Length::mm(rise_rule(place).value) / sin(pitch));
}

const practice::Rule& slope_lap_rule(const Place& place, Angle pitch) {
  const practice::Rule& least = place.pack.rule("lap.least");
  const practice::Rule& rise = rise_rule(place);
  return rise.value / sin(pitch) > least.value ? rise : least;
}

job::Figure slope_lap_figure(const Place& place, Angle pitch) {
  return practice::Why("lap", "max(least, rise / sin(pitch))", "mm")
      .rule("rise", rise_rule(place))
      .rule("least", place.pack.rule("lap.least"))
      .survey("pitch", pitch)
      .gives(lap_down_slope(place, pitch));
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
