// What the details of single-lap coverings ask alike.
#pragma once

#include "place.h"

#include <optional>

namespace lapwright::pieces {

// Says that heights above the units rest on a thickness that the survey leaves out.
void say_thickness(const Place& place, job::JunctionPlan& plan);

// The next stocked strip; a wrong finding when none is as wide.
std::optional<Length> strip_for(const Place& place, Length needed, job::JunctionPlan& plan);
job::Figure strip_figure(Length strip);  // "width"

}  // namespace lapwright::pieces
