#include "examining.h"

#include "existing_text.h"

#include <lapwright/check/as_found.h>
#include <lapwright/check/examine.h>
#include <lapwright/check/odds.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace lapwright::engine {

namespace {

// What the planner has already said of a place in its own words is not said again.
struct Said {
  std::string_view found;
  std::string_view planned;
};
constexpr std::array kSaid{
    Said{"check.soaker_lap", "soaker.lap_short"},  Said{"check.sidelap", "bond.sidelap_short"},
    Said{"check.headlap", "headlap.below_least"},  Said{"check.headlap", "headlap.below_chosen_table"},
    Said{"check.headlap", "headlap.below_tables"},
};

bool is_said(const job::Plan& plan, const job::Finding& found) {
  return std::any_of(kSaid.begin(), kSaid.end(), [&](const Said& said) {
    return said.found == found.rule &&
           std::any_of(plan.findings.begin(), plan.findings.end(), [&](const job::Finding& f) {
             return f.rule == said.planned && found.where.starts_with(f.where);
           });
  });
}

// The roof as it was made is planned like any other, with the details that were found.
void tell_existing(Planned& planned, const check::PlacedRoof& right, const Examining& how) {
  job::Survey made = planned.survey;
  for (const job::AsBuilt& found : made.as_built) {
    if (!found.detail) continue;
    for (job::Slope& slope : made.slopes) {
      for (job::Junction& junction : slope.junctions) {
        if (slope.name == found.slope && junction.name == found.junction) junction.detail = found.detail;
      }
    }
  }
  const auto plan = plan_other(made, planned);
  if (!plan) return;  // its faults are those of the plan itself
  check::PlacedRoof roof = check::place(made, *plan);
  planned.plan.existing = check::diagnose(roof, right, made, planned.pack);
  put_in_words(planned, planned.plan.existing->findings);
  std::stable_sort(planned.plan.existing->findings.begin(), planned.plan.existing->findings.end(),
                   [](const job::Finding& a, const job::Finding& b) { return a.level > b.level; });
  put_existing_in_words(planned);
  if (!how.odds) return;
  for (const job::AsBuilt& found : made.as_built) (void)check::apply(found, roof);
  planned.plan.odds = check::odds(roof, made, planned.pack);
}

}  // namespace

void examine(Planned& planned, const Examining& how) {
  check::Options options;
  options.draw = how.draw;
  const check::PlacedRoof right = check::place(planned.survey, planned.plan);
  check::Examined examined = check::examine(right, planned.survey, planned.pack, options);
  std::erase_if(examined.findings, [&](const job::Finding& f) { return is_said(planned.plan, f); });
  add_findings(planned, std::move(examined.findings));
  planned.plan.check = examined.proof.frontiers;
  planned.proof = std::move(examined.proof);
  const bool stands = !planned.survey.as_built.empty();
  if (!stands && planned.survey.leaks.empty()) {
    if (how.odds) planned.plan.odds = check::odds(right, planned.survey, planned.pack);
    return;
  }
  tell_existing(planned, right, how);
}

}  // namespace lapwright::engine
