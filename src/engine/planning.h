// Runs the stages in order: survey → pack → set-out → pieces → plan. Data runs one way.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/catalogue.h>
#include <lapwright/practice/pack.h>

#include <string_view>

namespace lapwright::engine {

struct Planned {
  job::Survey survey;
  practice::Pack pack;
  practice::Catalogue catalogue;
  job::Plan plan;
};

// What is the same for every job: reading it takes longer than planning a small roof.
struct Known {
  practice::Pack pack;
  practice::Catalogue catalogue;

  static Result<Known> built_in();
};

Result<Planned> plan_job(std::string_view job_bytes);
Result<Planned> plan_job(std::string_view job_bytes, const Known& known);

// True when a finding of the plan is `wrong`.
bool has_wrong(const job::Plan& plan);

}  // namespace lapwright::engine
