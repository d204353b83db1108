// What a planning hands back.
#pragma once

#include "planning.h"

#include <lapwright/engine/engine.h>

namespace lapwright::engine {

Outcome unreadable(const Faults& faults);
Outcome outcome_of(const Planned& planned, const Request& request);

// Names of papers and sizes that there are not, as faults.
Faults faults_of_papers(const Request& request);
// True when the quote or the price is asked for by name.
bool asks_for_quote(const Request& request);

}  // namespace lapwright::engine
