// A piece's folds as a person bends them: numbered, measured from one edge, up or down.
#pragma once

#include "words.h"

#include <lapwright/draw/drawing.h>
#include <lapwright/geom/net.h>

#include <string>
#include <vector>

namespace lapwright::sheets {

// One line of words per fold, or a single line for a row of like folds (the steps of a flashing).
std::vector<std::string> bend_words(const Words& words, const geom::Net& net);

// True when the folds are many and all alike.
bool like_folds(const geom::Net& net);

// The sheet in section at a fold, 9 mm wide: the fixed part level, the moving part turned up or down.
draw::Drawing bend_section(draw::Point at, const geom::Fold& fold);

}  // namespace lapwright::sheets
