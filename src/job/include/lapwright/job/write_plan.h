// A plan as JSON, format "lapwright-plan/1", and its schema.
#pragma once

#include <lapwright/job/plan.h>

#include <string>

namespace lapwright::job {

// One line per piece, row, finding and step, so that two plans can be compared line by line; ends in a line
// break. Lengths in mm to 1 µm, other numbers (and all numbers of figures) to 9 decimals; the same plan gives
// the same bytes in every build. A param is a number, [number, unit] or a word; empty lists and texts inside
// an item are left out. REQUIRES finite numbers.
std::string write_plan(const Plan& plan);

// {"format": "lapwright-findings/1", "findings": [...]}, with "existing" and "odds" where the plan has them.
// Of a roof that stands already the findings are those of the roof as found.
std::string write_findings(const Plan& plan);

// JSON Schema 2020-12 of format "lapwright-plan/1".
std::string plan_schema();

}  // namespace lapwright::job
