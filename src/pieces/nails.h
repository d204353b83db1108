// No nail of a covering unit may pass through lead: found from the placed shapes, not from a rule of thumb.
#pragma once

#include <lapwright/job/plan.h>

#include <vector>

namespace lapwright::pieces {

// Leaves out, in `rows`, every nail whose place lies on the leg of a soaker under that unit (or within a
// hand's cut of it). A soaker under course k lies under the units of course k and above. A course may have
// several rows; the rows of one slope come in the order of their courses.
void keep_nails_clear(const std::vector<job::Piece>& pieces, std::vector<job::Row>& rows);

}  // namespace lapwright::pieces
