#include "skew.h"

#include <lapwright/base/trig.h>

#include <cmath>

namespace lapwright::pieces {

namespace {

using job::Level;

// Off the line of fall, on plan: 0 beside, 90 along a level face.
double off_fall(const Place& place) {
  return std::abs(asin_deg(place.frame.runs_at));
}

}  // namespace

bool judge_bearing(const Place& place, std::vector<job::Finding>& findings) {
  const bool skew = place.face.kind == job::FaceKind::skew;
  const bool leans = place.face.lean != Angle{};
  if (!skew && !leans) return true;
  const double fold = place.frame.fold.in_degrees();
  if (skew) {
    const bool at_wall = place.frame.runs_at > 0;
    const Length gauge = place.layout.set_out.gauge;
    findings.push_back(
        {Level::note,
         at_wall ? "skew.water_runs_at_face" : "skew.water_runs_off_face",
         {{"angle", off_fall(place), "deg"},
          {"fold", fold, "deg"},
          {"rise", place.frame.rise.in_degrees(), "deg"},
          {"shift", (gauge * std::abs(place.frame.along.x / place.frame.along.y)).in_mm(), "mm"}},
         "",
         off_fall(place),
         std::nullopt,
         "geometry",
         place.where()});
    const practice::Rule& doubtful = place.pack.rule("skew.runs_at_most");
    if (at_wall && place.stand() == Stand::beside && off_fall(place) > doubtful.value) {
      findings.push_back({Level::doubt,
                          "skew.soakers_catch_water",
                          {{"angle", off_fall(place), "deg"}, {"most", doubtful.value, "deg"}},
                          "",
                          off_fall(place),
                          doubtful.value,
                          doubtful.source,
                          place.where()});
    }
  }
  if (leans) {
    findings.push_back({Level::note,
                        place.face.lean > Angle{} ? "skew.leans_away" : "skew.leans_over",
                        {{"lean", std::abs(place.face.lean.in_degrees()), "deg"}, {"fold", fold, "deg"}},
                        "",
                        place.face.lean.in_degrees(),
                        std::nullopt,
                        "geometry",
                        place.where()});
  }
  // An upstand that hardly turns up holds no water; one that turns back on itself cannot be dressed.
  const practice::Rule& least = place.pack.rule("skew.fold_least");
  const double most = 180.0 - least.value;
  if (fold >= least.value && fold <= most) return true;
  findings.push_back({Level::wrong,
                      fold < least.value ? "skew.fold_too_flat" : "skew.fold_too_sharp",
                      {{"fold", fold, "deg"}, {"least", least.value, "deg"}, {"most", most, "deg"}},
                      "",
                      fold,
                      fold < least.value ? least.value : most,
                      least.source,
                      place.where()});
  return false;
}

}  // namespace lapwright::pieces
