// A JSON number taken as a length.
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/job/length_text.h>

#include <string_view>

namespace lapwright::job {

// `number` as JSON writes numbers, in `unit`; rounded once, so that 10.25 in a file in inches is the double
// nearest to 260.35 mm. May be negative, and infinite where inches overflow what mm can hold.
Length length_of_number(std::string_view number, LengthUnit unit);

}  // namespace lapwright::job
