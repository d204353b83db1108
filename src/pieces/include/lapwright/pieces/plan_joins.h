// Every piece of lead where two slopes meet.
//
// An open valley gets its boards, pieces lapped up the line by the line's own pitch, and a saddle over its
// head. A hip or valley that the job asks to be mitred gets a soaker under every course. A hip otherwise has
// hip tiles, a ridge has ridge tiles: no lead. Placements are in the first slope's frame; a piece's
// `junction` is the join's name, "valley rear / wing".
#pragma once

#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/pieces/plan_slope.h>
#include <lapwright/practice/pack.h>

#include <span>
#include <vector>

namespace lapwright::pieces {

// One plan a join, in the survey's order; `rows` and `choices` stay empty. `layouts` has one entry a slope.
// What cannot be made is a finding, never a fault.
std::vector<SlopePlan> plan_joins(const job::Survey& survey, std::span<const job::SlopeLayout> layouts,
                                  const practice::Pack& pack);

}  // namespace lapwright::pieces
