// What is taken when the survey does not say: the survey's own value first, the pack's otherwise.
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

namespace lapwright::practice {

// The widest gap between a wall and the units beside it, anywhere along the junction.
Length widest_gap(const job::Junction& junction, const Pack& pack);

// The gap `s` up the slope, at the most that the survey's ± allows: linear between the places where it was
// measured, constant beyond them; a single gap holds everywhere.
Length gap_at(const job::Junction& junction, Length s, const Pack& pack);

// The widest of it from `low` to `high`.
Length widest_gap_between(const job::Junction& junction, Length low, Length high, const Pack& pack);

// The widest gap where the covering decides what is usual: beside a secret gutter units stop further from the
// wall.
Length gap_beside(const job::Covering& covering, const job::Junction& junction, const Pack& pack);

// The open perp between neighbours in a course.
Length open_joint(const job::Covering& covering, const Pack& pack);

// Height of a brick course.
Measured<Length> brick_course(const job::Wall& wall, const Pack& pack);

// Thickness class of the flashings at this junction.
std::int64_t flashing_code(const job::Junction& junction, const Pack& pack);

// The rule that limits a flashing's length: the usual one, or the shorter one of thin lead. (The job may want
// shorter pieces than thin lead allows.)
const Rule& longest_flashing(std::int64_t code, const Pack& pack);

}  // namespace lapwright::practice
