// A detail: a way of making a junction watertight. Each is one file in details/, whose name is the detail's
// word in a job file; it says how well it serves at a place and plans its pieces there.
//
// Adding one: docs/how-a-piece-is-added.md. Nothing else lists the details (cmake/details.cmake does).
#pragma once

#include "place.h"

#include <lapwright/base/fault.h>

#include <string_view>

namespace lapwright::pieces {

struct Judgement {
  job::Level level = job::Level::wrong;  // note: right
  std::string_view reason;               // "detail.right", or a finding of the catalogue
  std::string source = "common practice, no source";
  bool makeable = false;  // wrong, but lead can be made so: planned, to see why, where somebody insists

  static Judgement right() { return {job::Level::note, "detail.right"}; }
  static Judgement doubt(std::string_view reason) { return {job::Level::doubt, reason}; }
  static Judgement wrong(std::string_view reason) { return {job::Level::wrong, reason}; }
  static Judgement wrong_as_made(std::string_view reason) {
    Judgement out{job::Level::wrong, reason};
    out.makeable = true;
    return out;
  }
};

struct DetailPlanner {
  // At every place exactly one detail is right (tests/engine/details_test.cpp).
  Judgement (*judge)(const Place& place);
  // Adds pieces, findings and work to `plan`. Null: the detail is never planned.
  Result<void> (*plan)(const Place& place, job::JunctionPlan& plan);
};

// Says that this version has no pieces for the detail.
void not_planned_yet(const Place& place, job::JunctionPlan& plan);

const DetailPlanner& planner_of(job::Detail detail);

// Each file of details/ defines its own: `const DetailPlanner kApron{judge, plan};` and the function
// `apron_detail()` that gives it.
#define LAPWRIGHT_DECLARE(name, word) const DetailPlanner& name##_detail();
LAPWRIGHT_DETAILS(LAPWRIGHT_DECLARE)
#undef LAPWRIGHT_DECLARE

}  // namespace lapwright::pieces
