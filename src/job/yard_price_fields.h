// The part of a yard file that prices an estimate: prices, labour, terms.
#pragma once

#include "field_table.h"

#include <lapwright/job/yard.h>

namespace lapwright::job {

extern const Table kPriceTable;
extern const Table kLabourTable;
extern const Table kTermsTable;
extern const Table kProvisionalTable;

// A price in another currency than the yard's, or a thing priced twice.
void check_prices(Reading& reading, const Document& from, const Yard& yard, const Path& path);

}  // namespace lapwright::job
