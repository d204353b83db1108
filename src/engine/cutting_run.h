// The cutting stage of one planning, in slices, and its judge.
#pragma once

#include "planning.h"

#include <lapwright/cutting/cut_plan.h>
#include <lapwright/job/yard.h>

#include <string_view>

namespace lapwright::engine {

struct YardUsed {
  job::Yard yard;
  bool invented = false;
};

// Empty bytes: the built-in yard, whose widths and lengths are common and whose prices are invented.
Result<YardUsed> yard_of(std::string_view bytes);

// Puts the cutting list and its findings into the plan, in words. A list that the judge complains of is our
// own fault.
Result<void> take_in(const cutting::CutPlan& cut, const YardUsed& yard, Planned& planned);

}  // namespace lapwright::engine
