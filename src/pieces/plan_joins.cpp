#include <lapwright/pieces/plan_joins.h>

#include "courses_meet.h"
#include "mitred_soaker.h"
#include "on_join.h"
#include "valley.h"

#include <lapwright/job/facts.h>

#include <algorithm>
#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

using job::JoinDetail;
using job::JoinKind;
using job::Level;

std::string name_of_join(const job::Join& join) {
  std::string name(name_of(join.kind));
  for (std::size_t i = 0; i < join.slopes.size(); ++i) name += (i == 0 ? " " : " / ") + join.slopes[i];
  return name;
}

void say(SlopePlan& plan, const std::string& where, Level level, std::string_view rule, job::Params params,
         std::string source = "geometry") {
  plan.findings.push_back({level, std::string(rule), std::move(params), "", std::nullopt, std::nullopt,
                           std::move(source), where});
}

// Whether units can be cut to meet over soakers here.
bool judge_mitre(const JoinPlace& place, SlopePlan& plan) {
  for (const job::Slope* slope : place.slopes) {
    if (is_double_lap(slope->covering.kind)) continue;
    say(plan, place.name, Level::wrong, "mitre.needs_courses", {{"slope", slope->name, ""}},
        "common practice, no source");
    return false;
  }
  if (!place.is_valley()) return true;
  const practice::Rule& least = place.pack.rule("mitre.valley_pitch_least");
  const double flattest =
      std::min(place.slopes[0]->pitch.value.in_degrees(), place.slopes[1]->pitch.value.in_degrees());
  if (flattest >= least.value) return true;
  plan.findings.push_back({Level::wrong,
                           "mitre.valley_too_flat",
                           {{"pitch", flattest, "deg"}, {"least", least.value, "deg"}},
                           "",
                           flattest,
                           least.value,
                           least.source,
                           place.name});
  return false;
}

void plan_line(const JoinPlace& place, SlopePlan& plan) {
  const job::Join& join = *place.line.join;
  const bool mitred = join.detail == JoinDetail::mitred;
  if (join.detail == JoinDetail::open_valley && !place.is_valley()) {
    say(plan, place.name, Level::wrong, "join.no_such_detail",
        {{"kind", std::string(name_of(join.kind)), ""}}, "common practice, no source");
    return;
  }
  if (place.line.assumed) say(plan, place.name, Level::note, "join.square_assumed", {}, "survey");
  const bool laid = !place.layouts[0]->courses.empty() && !place.layouts[1]->courses.empty();
  const bool meet = !laid || judge_courses(place, mitred ? Level::wrong : Level::doubt, plan.findings);
  if (mitred) {
    if (judge_mitre(place, plan) && laid && meet) plan_mitred_soakers(place, plan);
  } else if (place.is_valley()) {
    plan_valley(place, plan);
  } else {
    say(plan, place.name, Level::note, "join.hip_has_tiles", {}, "common practice, no source");
  }
}

}  // namespace

std::vector<SlopePlan> plan_joins(const job::Survey& survey, std::span<const job::SlopeLayout> layouts,
                                  const practice::Pack& pack) {
  std::vector<SlopePlan> out;
  for (const job::Join& join : survey.joins) {
    SlopePlan plan;
    const std::string name = name_of_join(join);
    const auto line = job::join_line(survey, join);
    if (!line) {
      say(plan, name, Level::doubt, "join.no_line", {{"kind", std::string(name_of(join.kind)), ""}});
    } else if (join.kind != JoinKind::ridge) {
      const std::size_t a = line->sides[0].slope;
      const std::size_t b = line->sides[1].slope;
      plan.lies_on = {a, b};
      const JoinPlace place{survey, *line, {&survey.slopes[a], &survey.slopes[b]}, {&layouts[a], &layouts[b]},
                            pack,   name};
      plan_line(place, plan);
    } else if (join.detail) {
      say(plan, name, Level::wrong, "join.no_such_detail", {{"kind", std::string(name_of(join.kind)), ""}},
          "common practice, no source");
    }
    out.push_back(std::move(plan));
  }
  return out;
}

}  // namespace lapwright::pieces
