#include "courses_meet.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>

#include <algorithm>

namespace lapwright::pieces {

namespace {

struct Gauges {
  Length least;
  Length most;
  std::string source;
};

// The gauges that a covering can be laid at.
Gauges gauges_of(const job::Slope& slope, const job::SlopeLayout& layout, const practice::Pack& pack) {
  Gauges out;
  out.source = "geometry";
  const auto& figures = layout.set_out.figures;
  const auto largest = std::find_if(figures.begin(), figures.end(),
                                    [](const job::Figure& f) { return f.name == "largest_gauge"; });
  out.most = largest == figures.end() ? layout.set_out.gauge : Length::mm(largest->value);
  if (slope.covering.kind == job::CoveringKind::plain_tile) {
    const practice::Rule& most = pack.rule("gauge.plain_tile_most");
    out.least = pack.length("gauge.plain_tile_least");
    out.most = min(out.most, Length::mm(most.value));
    out.source = most.source;
  }
  return out;
}

}  // namespace

bool judge_courses(const JoinPlace& place, job::Level missed, std::vector<job::Finding>& findings) {
  const Length first = place.layouts[0]->set_out.gauge;
  // A course climbs as much on both slopes: G sin θ.
  const Length needed = first * (sin(place.slopes[0]->pitch.value) / sin(place.slopes[1]->pitch.value));
  const Gauges range = gauges_of(*place.slopes[1], *place.layouts[1], place.pack);
  const bool meet = needed >= range.least - tolerance::kNoise && needed <= range.most + tolerance::kNoise;
  const Length set = place.layouts[1]->set_out.gauge;
  if (meet && abs(needed - set) <= tolerance::kGrid) return true;
  job::Params params = {{"first", place.slopes[0]->name, ""}, {"second", place.slopes[1]->name, ""},
                        {"gauge", first.in_mm(), "mm"},       {"needed", needed.in_mm(), "mm"},
                        {"set", set.in_mm(), "mm"},           {"least", range.least.in_mm(), "mm"},
                        {"most", range.most.in_mm(), "mm"}};
  const bool over = needed > range.most;
  findings.push_back({meet ? job::Level::note : missed,
                      meet ? "join.courses_meet" : "join.courses_cannot_meet", std::move(params), "",
                      needed.in_mm(), over || meet ? range.most.in_mm() : range.least.in_mm(), range.source,
                      place.name});
  return meet;
}

}  // namespace lapwright::pieces
