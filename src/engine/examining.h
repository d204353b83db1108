// The last stage: the checker looks at what was planned, and what it finds joins the plan's findings.
#pragma once

#include "planning.h"

namespace lapwright::engine {

void examine(Planned& planned);

}  // namespace lapwright::engine
