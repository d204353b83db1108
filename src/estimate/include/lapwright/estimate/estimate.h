// What to buy and what work to allow for, counted from a plan: units, battens, nails, timber, wedges, clips,
// sealant, oil, kilograms of lead, hours.
//
// Pure: survey, plan and pack in, lines out; the plan's own set-out, rows, pieces and figures are read,
// nothing is laid out again. Every line carries the figure that gives its quantity, waste named as a rule
// (waste.units, ...), so that no allowance hides in a number. Lines that come to nought are left out. Lines
// that hold for one slope name it; the others are of the whole job.
//
// A unit is whole, a unit and a half, or cut from the smaller of the two that it fits in; a plain tile no
// longer than tile.eaves_length is an eaves (or top) tile.
#pragma once

#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

namespace lapwright::estimate {

// REQUIRES a plan made from this survey with this pack.
job::Estimate estimate(const job::Survey& survey, const job::Plan& plan, const practice::Pack& pack);

// Units to a square metre of roof: 1e6 / ((W + joint) · G). REQUIRES a gauge and a width above nought.
double units_per_m2(Length width, Length joint, Length gauge);
// Metres of batten to a square metre of roof: 1000 / G. REQUIRES a gauge above nought.
double battens_per_m2(Length gauge);

}  // namespace lapwright::estimate
