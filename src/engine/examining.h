// The last stage: the checker looks at what was planned, and what it finds joins the plan's findings.
#pragma once

#include "planning.h"

namespace lapwright::engine {

struct Examining {
  bool draw = false;  // keep what a drawing of the trace needs
  bool odds = false;
};

// A job that says what is there already, or where it leaks, gets its plan's `existing` here.
void examine(Planned& planned, const Examining& how = {});

}  // namespace lapwright::engine
