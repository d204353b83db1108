// Lead dressed down over the units below a face: the front of a stack, a top abutment.
#include "detail.h"

#include <lapwright/job/facts.h>

namespace lapwright::pieces {

namespace {

Judgement judge(const Place& place) {
  switch (place.stand()) {
    case Stand::below:
      return Judgement::right();
    case Stand::beside:
      return Judgement::wrong("detail.apron_at_side");
    case Stand::above:
      return Judgement::wrong("detail.apron_holds_water");
    case Stand::around:
      break;
  }
  return Judgement::wrong("detail.not_at_this_face");
}

Result<void> plan(const Place& place, job::JunctionPlan& plan) {
  not_planned_yet(place, plan);
  return {};
}

constexpr DetailPlanner kDetail{judge, plan};

}  // namespace

const DetailPlanner& apron_detail() {
  return kDetail;
}

}  // namespace lapwright::pieces
