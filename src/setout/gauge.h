// What gauge a headlap allows, and how the courses fill the rafter.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

namespace lapwright::setout {

// How much of a unit's length lies above its own nail or hanging point and so counts for no lap: 25 for
// head-nailed slates, nothing for the others.
Length dead_head(const job::Covering& covering, const practice::Pack& pack);

// Fills `layout.courses`, with the gauge's figures and findings. Faults (no_geometry) when the sets, or the
// lap, leave no courses.
Result<void> fill_courses(const job::Slope& slope, Length headlap, const practice::Pack& pack,
                          job::SlopeLayout& layout);

}  // namespace lapwright::setout
