// The cover flashing over a back gutter's upstand: turned into the joint above it, and as high as that joint
// asks for.
#pragma once

#include "gutter_section.h"

#include <lapwright/job/plan.h>

namespace lapwright::pieces {

// Adds pieces, work and findings. `upstand`: of the gutter, up the face from the sole.
void plan_gutter_cover(const Place& place, const GutterSection& section, Length upstand,
                       job::JunctionPlan& plan);

}  // namespace lapwright::pieces
