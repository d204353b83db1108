// Which detail a junction may have: right, doubtful or wrong, each with its reason.
#pragma once

#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <optional>
#include <string>
#include <vector>

namespace lapwright::pieces {

struct DetailChoice {
  std::optional<job::Detail> plan;  // the detail to plan; empty when nothing can be planned
  std::vector<job::Finding> findings;
};

// For a side abutment. What the person insists on is followed when it is right or doubtful (the doubt is
// said); a wrong one is refused with its reason and the right one is offered, and nothing is planned.
DetailChoice choose_side_detail(const job::Slope& slope, const job::Junction& junction,
                                job::Exposure exposure, const practice::Pack& pack);

}  // namespace lapwright::pieces
