// One document that uses everything the model can say, for the writers' tests.
#pragma once

#include <lapwright/draw/drawing.h>

namespace lapwright::draw::sample {
Document document();
// A net with arcs, folds and a hole, at full size, for DXF.
Drawing net();
}  // namespace lapwright::draw::sample
