// A flat piece with a sleeve round a pipe.
#include "detail.h"

#include <lapwright/job/facts.h>

namespace lapwright::pieces {

namespace {

Judgement judge(const Place& place) {
  if (place.stand() != Stand::around) return Judgement::wrong("detail.not_at_this_face");
  return Judgement::right();
}

Result<void> plan(const Place& place, job::JunctionPlan& plan) {
  not_planned_yet(place, plan);
  return {};
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& pipe_slate_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
