// The bed joint that a level flashing turns into.
#pragma once

#include "place.h"

#include <optional>

namespace lapwright::pieces {

// Height of the lowest joint at or above `least`, both upright from the roof's surface at the junction's
// lower end, as the survey measures them. Empty when the survey does not say where the joints are or none of
// those that it lists reaches so high; a wall that is not of bricks has none.
std::optional<Length> joint_above(const Place& place, Length least);

}  // namespace lapwright::pieces
