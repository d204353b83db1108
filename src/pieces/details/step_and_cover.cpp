// One stepped piece that also lies on the roof, to the far side of a roll: profiled single-lap tiles at
// brickwork.
#include "detail.h"
#include "step_flashing.h"

#include <lapwright/job/facts.h>

namespace lapwright::pieces {

namespace {

Judgement judge(const Place& place) {
  if (place.stand() != Stand::beside) return Judgement::wrong("detail.not_at_this_face");
  const job::CoveringKind covering = place.slope.covering.kind;
  const bool joints = place.junction.wall.kind == job::WallKind::brick;
  if (!joints) return Judgement::wrong("detail.steps_need_joints");
  if (job::is_double_lap(covering)) return Judgement::wrong_as_made("detail.cover_on_double_lap");
  if (covering == job::CoveringKind::flat_tile) return Judgement::wrong_as_made("detail.cover_on_flat_tile");
  return Judgement::right();
}

Result<void> plan(const Place& place, job::JunctionPlan& plan) {
  return plan_step_and_cover(place, plan);
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& step_and_cover_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
