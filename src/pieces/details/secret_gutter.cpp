// A lead channel beside the wall, below the covering, with a flashing over its upstand: flat single-lap
// tiles.
#include "detail.h"

#include <lapwright/job/facts.h>

namespace lapwright::pieces {

namespace {

Judgement judge(const Place& place) {
  if (place.stand() != Stand::beside) return Judgement::wrong("detail.not_at_this_face");
  const job::CoveringKind covering = place.slope.covering.kind;
  if (covering == job::CoveringKind::flat_tile) return Judgement::right();
  if (covering == job::CoveringKind::slate) return Judgement::doubt("detail.secret_gutter_on_slate");
  return Judgement::doubt("detail.secret_gutter_not_usual");
}

Result<void> plan(const Place& place, job::JunctionPlan& plan) {
  not_planned_yet(place, plan);
  return {};
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& secret_gutter_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
