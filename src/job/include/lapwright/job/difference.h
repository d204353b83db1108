// Where two plans differ, thing by thing: two versions of a job, or two coverings, headlaps, details.
#pragma once

#include <lapwright/job/plan.h>

#include <string>
#include <string_view>
#include <vector>

namespace lapwright::job {

// One thing that is not the same. A side on which it does not exist is empty.
struct Difference {
  std::string what;   // "set-out", "course", "piece", "figure", "quantity", "price", "finding"
  std::string where;  // "rear / house wall / soaker"
  std::string name;   // "length", "tail of course 3", "covering.unit"
  std::string a;
  std::string b;
};

// Courses are paired by number; pieces by slope, junction, face and kind, in their order (marks may differ:
// they are given anew in each plan); lines of estimate and price by their item, slope and size; findings by
// rule and place. Values are compared as a person reads them, so that a difference below what is shown is
// none.
std::vector<Difference> differences(const Plan& a, const Plan& b);

// Format "lapwright-compare/1".
std::string write_differences(const Plan& a, const Plan& b, const std::vector<Difference>& differences);

}  // namespace lapwright::job
