// A roof that stands already: the lead that would be laid, changed to what somebody found.
#pragma once

#include <lapwright/check/placed.h>
#include <lapwright/job/existing.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <cstddef>
#include <vector>

namespace lapwright::check {

// Changes the roof by one line of what was found, and gives the lead that it changed as it was before. None:
// nothing lies there that the line could speak of. A whole detail is not changed here: it is laid by whoever
// places the roof.
std::vector<PlacedLead> apply(const job::AsBuilt& found, PlacedRoof& roof);

// What an existing roof lets through. `made` has the details that were found, each piece as it should lie;
// `right` is the work that would put it right. Each line of the survey's as_built is judged
// by itself, so that one fault does not hide another; findings are of all together.
// REQUIRES that survey and roofs belong together. Texts are not yet given.
// Properties: suspects come the likeliest first: those that explain noted leaks, then what gives in the
// mildest weather; every noted leak is explained by some suspect or stands in `unexplained`.
job::Existing diagnose(const PlacedRoof& made, const PlacedRoof& right, const job::Survey& survey,
                       const practice::Pack& pack);

}  // namespace lapwright::check
