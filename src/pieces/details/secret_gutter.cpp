// A lead channel beside the wall, below the covering, with a flashing over its upstand: flat single-lap
// tiles.
#include "secret_gutter.h"
#include "cover_flashing.h"
#include "detail.h"
#include "step_flashing.h"

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
  if (!plan_secret_gutter(place, plan)) return {};
  // Two parts, never one: lead in the gutter moves apart from the lead that the wall holds.
  if (place.junction.wall.kind == job::WallKind::brick) return plan_step_flashings(place, plan);
  plan_cover_flashings(place, plan);
  return {};
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& secret_gutter_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
