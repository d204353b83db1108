// Soakers under every course and step flashing over their upstands: double-lap coverings at brickwork.
#include "detail.h"
#include "soaker.h"
#include "step_flashing.h"

#include <lapwright/job/facts.h>

namespace lapwright::pieces {

namespace {

Judgement judge(const Place& place) {
  if (place.stand() != Stand::beside) return Judgement::wrong("detail.not_at_this_face");
  if (!is_double_lap(place.slope.covering.kind)) return Judgement::wrong("detail.soakers_need_courses");
  if (place.junction.wall.kind != job::WallKind::brick) return Judgement::wrong("detail.steps_need_joints");
  return Judgement::right();
}

Result<void> plan(const Place& place, job::JunctionPlan& plan) {
  plan_soakers(place, plan);
  return plan_step_flashings(place, plan);
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& soakers_and_steps_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
