// Cover flashings: straight pieces in a raking chase parallel to the roof, over the soakers' upstands, for
// walls without bed joints to step into.
//
// Pieces of one length: n = ceil((run − lap) / (longest − lap)), each (run + (n − 1)·lap) / n long; laps
// along the wall, upper over lower. Properties: no piece over the longest; pieces less laps add up to the
// run.
#pragma once

#include "place.h"

namespace lapwright::pieces {

void plan_cover_flashings(const Place& place, job::JunctionPlan& plan);

}  // namespace lapwright::pieces
