// The flat net of one step flashing.
#pragma once

#include "steps.h"

#include <lapwright/geom/net.h>

namespace lapwright::pieces {

// Steps [first, last) of `steps`, drawn for a left-hand wall; x starts at reach_of(steps, first, last).low, y
// at the foot. REQUIRES first < last <= steps.steps.size().
geom::Net step_net(const Steps& steps, std::size_t first, std::size_t last);

}  // namespace lapwright::pieces
