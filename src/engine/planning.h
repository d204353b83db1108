// Runs the stages in order: survey → pack → set-out → pieces → plan. Data runs one way.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/proof.h>
#include <lapwright/job/survey.h>
#include <lapwright/job/yard.h>
#include <lapwright/practice/catalogue.h>
#include <lapwright/practice/pack.h>

#include <string_view>
#include <vector>

namespace lapwright::engine {

struct Planned {
  job::Survey survey;
  practice::Pack pack;
  practice::Catalogue catalogue;
  job::Plan plan;
  job::Proof proof{};  // once it has been examined
};

// What is the same for every job: reading it takes longer than planning a small roof.
struct Known {
  practice::Pack pack;
  practice::Catalogue catalogue;

  static Result<Known> built_in();
};

// Without the cutting list. The yard's bytes go into the fingerprint only.
Result<Planned> plan_job(std::string_view job_bytes, std::string_view yard_bytes = {});
Result<Planned> plan_job(std::string_view job_bytes, const Known& known, std::string_view yard_bytes = {});

// What another survey would be planned as by the same rules: the shapes and their order, texts not given. For
// a roof that stands already.
Result<job::Plan> plan_other(const job::Survey& survey, const Planned& like);

// Gives findings their texts, in this job's units.
void put_in_words(const Planned& planned, std::vector<job::Finding>& findings);

// Makes the estimate again, now that the cutting list stands, and prices it where `yard` is one that prices
// work. A yard that prices what no estimate has is at fault.
Result<void> settle_estimate(Planned& planned, const job::Yard* yard);

// Adds findings of a later stage: in words, in their place by severity.
void add_findings(Planned& planned, std::vector<job::Finding> findings);

// True when a finding of the plan is `wrong`.
bool has_wrong(const job::Plan& plan);

}  // namespace lapwright::engine
