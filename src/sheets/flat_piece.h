// A piece's flat net with its sizes and its folds numbered in bending order, in mm of paper at `scale`.
#pragma once

#include "words.h"

#include <lapwright/geom/net.h>

namespace lapwright::sheets {

draw::Drawing flat_piece(const Words& words, const geom::Net& net, double scale);

}  // namespace lapwright::sheets
