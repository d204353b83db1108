// A piece's flat net as lines: what is cut and what is bent, true size.
#pragma once

#include <lapwright/geom/net.h>
#include <lapwright/sheets/sheets.h>

namespace lapwright::sheets {

// A line along which the sheet is bossed is dash-dot: nobody must cut there.
draw::Drawing pattern(const geom::Net& net);

// The straight lines of a drawing within `window`, each a path of its own.
draw::Drawing cropped(const draw::Drawing& lines, const draw::Box& window);

}  // namespace lapwright::sheets
