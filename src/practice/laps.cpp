#include <lapwright/practice/laps.h>

#include <lapwright/base/trig.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/figure.h>

#include <algorithm>

namespace lapwright::practice {

namespace {

const Rule& rise_rule(job::Exposure exposure, const Pack& pack) {
  return pack.rule(is_exposed(exposure) ? "lap.rise_severe" : "lap.rise");
}

// Flatter than this nothing is lapped: the number is only to show why.
constexpr double kHardlyAPitch = 1;

Length by_rise(Angle pitch, job::Exposure exposure, const Pack& pack) {
  const double own = std::max(kHardlyAPitch, pitch.in_degrees() - pack.number("lap.pitch_less"));
  return Length::mm(rise_rule(exposure, pack).value / sin_deg(own));
}

}  // namespace

Length lap_down_slope(Angle pitch, job::Exposure exposure, const Pack& pack) {
  return max(pack.length("lap.least"), by_rise(pitch, exposure, pack));
}

const Rule& lap_down_slope_rule(Angle pitch, job::Exposure exposure, const Pack& pack) {
  const Rule& least = pack.rule("lap.least");
  const Rule& rise = rise_rule(exposure, pack);
  return by_rise(pitch, exposure, pack) > Length::mm(least.value) ? rise : least;
}

job::Figure lap_down_slope_figure(std::string_view name, Angle pitch, std::string_view from,
                                  job::Exposure exposure, const Pack& pack) {
  Why why(name, "max(least, rise / sin(max(1, pitch - less)))", "mm");
  return why.rule("rise", rise_rule(exposure, pack))
      .rule("least", pack.rule("lap.least"))
      .term("pitch", pitch.in_degrees(), "deg", from)
      .rule("less", pack.rule("lap.pitch_less"))
      .gives(lap_down_slope(pitch, exposure, pack));
}

}  // namespace lapwright::practice
