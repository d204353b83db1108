// Headlap and gauge: which lap is asked for, what gauge that allows, and how the courses fill the rafter.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <optional>
#include <vector>

namespace lapwright::setout {

struct Headlap {
  std::optional<Length> least;  // empty: nothing permits this covering here
  std::vector<job::SetAlternative> alternatives;
  std::vector<job::Finding> findings;
  job::Figure figure;
};

// How much of a unit's length lies above its own nail or hanging point and so counts for no lap: 25 for
// head-nailed slates, nothing for the others.
Length dead_head(const job::Covering& covering, const practice::Pack& pack);

bool is_double_lap(job::CoveringKind kind);

Headlap choose_headlap(const job::Slope& slope, job::Exposure exposure, const practice::Pack& pack);

// Fills `layout.courses`, `under_length` and the gauge figures.
Result<void> fill_courses(const job::Slope& slope, Length headlap, const practice::Pack& pack,
                          job::SlopeLayout& layout);

}  // namespace lapwright::setout
