// What a person has to know about a face that is not square to the slope, or not plumb: which way water runs,
// at what angle the lead folds, and where that stops being buildable.
#pragma once

#include "place.h"

#include <vector>

namespace lapwright::pieces {

// Adds findings for a skew or leaning face; none for the usual ones. False when nothing can be built there.
bool judge_bearing(const Place& place, std::vector<job::Finding>& findings);

}  // namespace lapwright::pieces
