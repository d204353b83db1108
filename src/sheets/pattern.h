// A piece's flat net as lines: what is cut and what is bent, true size.
#pragma once

#include <lapwright/geom/net.h>
#include <lapwright/sheets/sheets.h>

namespace lapwright::sheets {

draw::Drawing pattern(const geom::Net& net);

}  // namespace lapwright::sheets
