// One step of the hand, drawn: the part as it lies, its marks as off a tape, what comes off by name.
#pragma once

#include <lapwright/draw/drawing.h>
#include <lapwright/sheets/sheets.h>

#include <map>
#include <string>

namespace lapwright::sheets {

// On the roll: x along it, y across.
struct RollPart {
  Length x;
  Length y;
  Length length;
  Length width;
};

// Of every name that a step gives the first part that has it, cut step by step. A saw's kerf is not in it:
// such a part is some millimetres smaller than it is drawn.
std::map<std::string, RollPart> parts_of(const job::CutRoll& roll);

// mm of paper, at most `room` wide. The tape lies level, hooked on at the ring. What lies square to the cuts
// is no matter for the tape: of a long part a piece is drawn.
draw::Drawing step_view(const Sources& sources, const job::CutRoll& roll, const job::CutStep& step,
                        const RollPart& part, double room);

}  // namespace lapwright::sheets
