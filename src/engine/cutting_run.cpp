#include "cutting_run.h"

#include "embedded.h"

#include <lapwright/cutcheck/cutcheck.h>

#include <algorithm>
#include <utility>

namespace lapwright::engine {

Result<YardUsed> yard_of(std::string_view bytes) {
  const bool invented = bytes.empty();
  auto yard = job::read_yard(invented ? embedded::common_yard_json() : bytes);
  if (!yard) return failed(std::move(yard.error()));
  return YardUsed{std::move(*yard), invented};
}

Result<void> take_in(const cutting::CutPlan& cut, const YardUsed& yard, Planned& planned) {
  job::Cutting list = cut.result();
  list.invented_yard = yard.invented;
  if (list.rolls.empty() && list.refused.empty()) return {};
  job::Plan& plan = planned.plan;
  plan.cutting = std::move(list);
  const std::vector<cutcheck::Complaint> complaints = cutcheck::check(plan, yard.yard, planned.pack);
  if (!complaints.empty()) {
    Faults faults;
    for (const cutcheck::Complaint& complaint : complaints) {
      faults.push_back({FaultCode::internal,
                        "$.cutting",
                        {},
                        complaint.rule + ": " + complaint.where,
                        "a cutting list that its own checker finds sound",
                        "report this with the job file"});
      if (faults.size() == 20) break;
    }
    return failed(std::move(faults));
  }
  add_findings(planned, cutting::findings_of(*plan.cutting, plan, yard.yard, planned.pack));
  return {};
}

}  // namespace lapwright::engine
