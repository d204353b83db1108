// Soakers under every course and a cover flashing in a straight raking chase: double-lap coverings at walls
// without bed joints to step into.
#include "cover_flashing.h"
#include "detail.h"
#include "soaker.h"

#include <lapwright/job/facts.h>

namespace lapwright::pieces {

namespace {

Judgement judge(const Place& place) {
  if (place.stand() != Stand::beside) return Judgement::wrong("detail.not_at_this_face");
  if (!is_double_lap(place.slope.covering.kind)) return Judgement::wrong("detail.soakers_need_courses");
  if (place.junction.wall.kind == job::WallKind::brick) return Judgement::doubt("detail.chase_across_bricks");
  return Judgement::right();
}

Result<void> plan(const Place& place, job::JunctionPlan& plan) {
  plan_soakers(place, plan);
  plan_cover_flashings(place, plan);
  return {};
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& soakers_and_cover_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
