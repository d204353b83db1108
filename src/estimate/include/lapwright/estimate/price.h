// What an estimate costs at a yard's prices: line by line, then overheads, margin and VAT.
//
// Money is in whole pence or cents. Quantities are taken to hundredths, as they are printed, so that whoever
// multiplies again gets the same; each line is rounded to the nearest, halves up; every further sum is made
// of whole amounts and rounded once, so that what is printed adds up: net is materials + labour + access +
// overheads + margin, total is net + VAT, to the penny. A line that nobody priced stays in the list without
// an amount and is counted as missing; it never costs nought.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/yard.h>

#include <cstdint>

namespace lapwright::estimate {

// Lead is priced by the rolls of the plan's cutting list, work by the hour or by the day, all else by the
// yard's prices. Faults: a price for an item that no estimate has, or per something that the item is not
// counted in. REQUIRES a plan whose estimate was made with its cutting list.
Result<job::Price> price(const job::Plan& plan, const job::Yard& yard);

// True when a yard prices more than lead.
bool prices_work(const job::Yard& yard);

// `hundredths` of a percent of `amount`, to the nearest, halves up. REQUIRES amount ≥ 0, hundredths ≥ 0.
std::int64_t share_of(std::int64_t amount, std::int64_t hundredths);

}  // namespace lapwright::estimate
