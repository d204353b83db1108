// The flat net of one step flashing.
#pragma once

#include "steps.h"

#include <lapwright/geom/net.h>

namespace lapwright::pieces {

// Steps [first, last) of `steps`, drawn for a left-hand wall; x starts at reach_of(steps, first, last).low, y
// at foot_of(). REQUIRES first < last <= steps.steps.size(). Cut plumb where the wall ends, however many
// pieces lie beside that end.
geom::Net step_net(const Steps& steps, std::size_t first, std::size_t last);

// A point of that net's face, below all its turn-ins.
geom::GridPoint step_face_point(const Steps& steps, std::size_t first, std::size_t last);

}  // namespace lapwright::pieces
