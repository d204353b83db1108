// A straight piece in a raking chase that also lies on the roof, to the far side of a roll: profiled
// single-lap tiles at walls without bed joints.
#include "cover_flashing.h"
#include "detail.h"

#include <lapwright/job/facts.h>

namespace lapwright::pieces {

namespace {

Judgement judge(const Place& place) {
  if (place.stand() != Stand::beside) return Judgement::wrong("detail.not_at_this_face");
  const job::CoveringKind covering = place.slope.covering.kind;
  if (job::is_double_lap(covering)) return Judgement::wrong_as_made("detail.cover_on_double_lap");
  if (covering == job::CoveringKind::flat_tile) return Judgement::wrong_as_made("detail.cover_on_flat_tile");
  if (place.junction.wall.kind == job::WallKind::brick) return Judgement::doubt("detail.chase_across_bricks");
  return Judgement::right();
}

Result<void> plan(const Place& place, job::JunctionPlan& plan) {
  plan_chased_covers(place, plan);
  return {};
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& cover_flashing_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
