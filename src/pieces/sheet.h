// What every piece of lead sheet shares: its code and its weight.
#pragma once

#include "place.h"

#include <lapwright/geom/net.h>
#include <lapwright/job/plan.h>
#include <lapwright/practice/pack.h>

#include <string_view>

namespace lapwright::pieces {

// A piece of this place without sizes, figures or placements yet.
job::Piece lead_piece(std::string_view kind, const Place& place, geom::Net net, geom::GridPoint base_point);

// Fills area and mass from the net and the code, with their figures. REQUIRES piece.code.
void weigh(job::Piece& piece, const practice::Pack& pack);

// The same for a piece of another metal: metal, thickness, area and mass.
void weigh_metal(job::Piece& piece, const practice::SoakerMetal& metal);

}  // namespace lapwright::pieces
