// One roll as it is cut, drawn to scale: every piece in its place, what is left hatched.
#pragma once

#include <lapwright/draw/drawing.h>
#include <lapwright/sheets/sheets.h>

#include <cstdint>

namespace lapwright::sheets {

// What a piece carries for a page to find it: its mark, or its place in the list as well ("cut/R1/K/MARK").
enum class PieceTag : std::uint8_t { mark, place };

// mm of paper. `upright`: the hooked end of the tape is at the bottom and the roll runs up; else it runs to
// the right. With the distances of the first cuts beside it.
draw::Drawing roll_view(const Sources& sources, const job::CutRoll& roll, double scale, bool upright,
                        PieceTag tag = PieceTag::mark);

}  // namespace lapwright::sheets
