// What a planning hands back.
#pragma once

#include "planning.h"

#include <lapwright/engine/engine.h>

namespace lapwright::engine {

Outcome unreadable(const Faults& faults);
Outcome outcome_of(const Planned& planned, bool documents);

}  // namespace lapwright::engine
