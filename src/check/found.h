// Lead that nobody plans and people find: laid here so that the checker can say what it stands.
#pragma once

#include <lapwright/check/placed.h>
#include <lapwright/practice/pack.h>

namespace lapwright::check {

// Where a job insists on lead laid over a double-lap covering, and so has no pieces: one strip over the
// units, up the wall and into it, as wide as the rule cover.width. Nothing below it.
void lay_asked_covers(PlacedSlope& slope, const practice::Pack& pack);

}  // namespace lapwright::check
