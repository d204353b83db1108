// What a drawing of the trace needs: the courses around the first leak, and where water creeps out of sight.
#pragma once

#include <lapwright/check/placed.h>
#include <lapwright/check/site.h>
#include <lapwright/check/trace.h>
#include <lapwright/job/proof.h>

namespace lapwright::check {

// In this weather. Without a leak the middle of what has to be dry is shown.
job::Trace drawing_of(const PlacedSlope& slope, const Site& site, const Tracer& tracer, Weather weather,
                      const Leak* leak);

}  // namespace lapwright::check
