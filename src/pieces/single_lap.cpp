#include "single_lap.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/practice/figure.h>

namespace lapwright::pieces {

void say_thickness(const Place& place, job::JunctionPlan& plan) {
  if (place.slope.covering.thickness.value > Length{}) return;
  plan.findings.push_back({job::Level::doubt,
                           "covering.thickness_missing",
                           {},
                           "",
                           std::nullopt,
                           std::nullopt,
                           "survey",
                           place.where()});
}

std::optional<Length> strip_for(const Place& place, Length needed, job::JunctionPlan& plan) {
  const auto strip = place.pack.next_strip_width(needed - tolerance::kGrid);
  if (strip) return strip;
  const Length widest = place.pack.strip_widths().back();
  plan.findings.push_back({job::Level::wrong,
                           "lead.no_strip",
                           {{"needed", needed.in_mm(), "mm"}, {"widest", widest.in_mm(), "mm"}},
                           "",
                           needed.in_mm(),
                           widest.in_mm(),
                           place.pack.strip_widths_source(),
                           place.where()});
  return std::nullopt;
}

job::Figure strip_figure(Length strip) {
  job::Figure figure = practice::Why("width", "strip", "mm")
                           .term("strip", strip.in_mm(), "mm", "next stocked strip")
                           .gives(strip);
  figure.source = "strip widths as usually stocked; check the merchant's list";
  figure.standing = job::Standing::guide;
  return figure;
}

}  // namespace lapwright::pieces
