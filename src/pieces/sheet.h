// What every piece of lead sheet shares: its code and its weight.
#pragma once

#include <lapwright/geom/net.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <string_view>

namespace lapwright::pieces {

// A piece without sizes, figures or placements yet.
job::Piece lead_piece(std::string_view kind, const job::Slope& slope, const job::Junction& junction,
                      geom::Net net, geom::GridPoint base_point);

// Fills area and mass from the net and the code, with their figures. REQUIRES piece.code.
void weigh(job::Piece& piece, const practice::Pack& pack);

}  // namespace lapwright::pieces
