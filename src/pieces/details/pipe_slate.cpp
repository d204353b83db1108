// A flat piece with a sleeve round a pipe.
#include "pipe_slate.h"
#include "detail.h"

#include <lapwright/job/facts.h>

namespace lapwright::pieces {

namespace {

Judgement judge(const Place& place) {
  if (place.stand() != Stand::around) return Judgement::wrong("detail.not_at_this_face");
  return Judgement::right();
}

Result<void> plan(const Place& place, job::JunctionPlan& plan) {
  plan_pipe_slate(place, plan);
  return {};
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& pipe_slate_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
