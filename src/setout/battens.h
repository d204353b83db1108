// Batten marks: the running list to chalk from the eaves.
#pragma once

#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

namespace lapwright::setout {

// Where a unit of `length` in a course with this headlap takes its nails, from its tail. A single hole line:
// both nails of a unit are at the same height.
Length nail_up(const job::Covering& covering, Length length, Length gauge, Length headlap,
               const practice::Pack& pack);

// Fills set_out.battens. A mark is the upper edge of the batten, measured up the slope from the tail of the
// eaves course: where a tile's nib bears, the head of a head-hung or head-nailed slate, half a batten above
// the nail line of a centre-nailed one.
void mark_battens(const job::Slope& slope, const practice::Pack& pack, job::SlopeLayout& layout);

}  // namespace lapwright::setout
