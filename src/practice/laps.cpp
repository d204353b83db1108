#include <lapwright/practice/laps.h>

#include <lapwright/base/trig.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/figure.h>

namespace lapwright::practice {

namespace {

const Rule& rise_rule(job::Exposure exposure, const Pack& pack) {
  return pack.rule(is_exposed(exposure) ? "lap.rise_severe" : "lap.rise");
}

}  // namespace

Length lap_down_slope(Angle pitch, job::Exposure exposure, const Pack& pack) {
  const double own = pitch.in_degrees() - pack.number("lap.pitch_less");
  return max(pack.length("lap.least"), Length::mm(rise_rule(exposure, pack).value / sin_deg(own)));
}

job::Figure lap_down_slope_figure(std::string_view name, Angle pitch, std::string_view from,
                                  job::Exposure exposure, const Pack& pack) {
  Why why(name, "max(least, rise / sin(pitch - less))", "mm");
  return why.rule("rise", rise_rule(exposure, pack))
      .rule("least", pack.rule("lap.least"))
      .term("pitch", pitch.in_degrees(), "deg", from)
      .rule("less", pack.rule("lap.pitch_less"))
      .gives(lap_down_slope(pitch, exposure, pack));
}

}  // namespace lapwright::practice
