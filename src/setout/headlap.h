// Which headlap is asked for: by the person, by a table, or by the maker's largest gauge.
#pragma once

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

Headlap choose_headlap(const job::Slope& slope, job::Exposure exposure, const practice::Pack& pack);

}  // namespace lapwright::setout
