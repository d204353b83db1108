#include "examining.h"

#include <lapwright/check/examine.h>

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

}  // namespace

void examine(Planned& planned) {
  check::Examined examined =
      check::examine(check::place(planned.survey, planned.plan), planned.survey, planned.pack);
  std::erase_if(examined.findings, [&](const job::Finding& f) { return is_said(planned.plan, f); });
  add_findings(planned, std::move(examined.findings));
  planned.plan.check = std::move(examined.proof.frontiers);
}

}  // namespace lapwright::engine
