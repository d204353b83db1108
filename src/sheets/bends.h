// A piece's folds as a person bends them: numbered, measured from one edge, up or down.
#pragma once

#include "words.h"

#include <lapwright/draw/drawing.h>
#include <lapwright/geom/net.h>

#include <string>
#include <vector>

namespace lapwright::sheets {

// A line of words and the fold that it begins with, as an index into the net's folds.
struct Bend {
  std::string text;
  std::size_t fold = 0;
};

// One line per fold; a single line for a row of like folds (the steps of a flashing) and for a run of small
// ones that stands for a curve (a pipe's sleeve).
std::vector<Bend> bend_words(const Words& words, const geom::Net& net);

// True when the folds are many and all alike, and no curve.
bool like_folds(const geom::Net& net);

// True when this fold and its neighbours in bending order stand for a curve: many, small, alike.
bool rolled(const geom::Net& net, std::size_t fold);

// The sheet in section at a fold, 9 mm wide: the fixed part level, the moving part turned up or down.
draw::Drawing bend_section(draw::Point at, const geom::Fold& fold);

}  // namespace lapwright::sheets
