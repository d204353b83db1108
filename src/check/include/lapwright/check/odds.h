// How likely each measured rule is not to hold, when tapes, units and hands are what they are.
#pragma once

#include <lapwright/check/placed.h>
#include <lapwright/job/odds.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <vector>

namespace lapwright::check {

// Samples the roof with what the survey says of its own errors (a measurement's ±, else the rules spread.*)
// and what a hand cuts, each error taken as an outer bound: most often small, never past it. Each is drawn
// once a roof, the cut of the lead too: a chance is that of any one piece, not of the worst of all. The lead
// stays as it was cut; units, joints and tape move under it. One for every rule measured at every junction,
// in the order of measuring. The same roof gives the same odds: the seed is fixed.
std::vector<job::Odds> odds(const PlacedRoof& roof, const job::Survey& survey, const practice::Pack& pack);

}  // namespace lapwright::check
