// A price that somebody else gave, in the words that it was given in: "50 m of code 4 at 150 wide, £570".
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/base/units.h>
#include <lapwright/job/yard.h>
#include <lapwright/practice/pack.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace lapwright::estimate {

struct Offer {
  std::int64_t code = 0;
  Length width;
  Length length;           // in all
  std::int64_t price = 0;  // pence or cents
  std::string currency;    // three letters
};

// Reads lengths ("50 m", "3 rolls of 6 m"), the width ("150 wide", "at 150 mm wide"), the code ("code 4") and
// the price ("£570", "570.50 EUR", "£1,250"), in any order; "of", "at", "for" and commas are passed over.
// Anything else is a fault, and so is what is missing or said twice.
Result<Offer> read_offer(std::string_view words);

struct OfferJudged {
  Mass mass;
  double per_kg = 0;  // pence or cents
  double per_m = 0;
  // At the yard: the cheapest a kilogram of this code, in this width where it is stocked; empty: the yard has
  // no such lead.
  std::optional<double> yard_per_kg;
  std::optional<double> yard_per_m;
  bool same_width = false;
};

// Faults: an offer in another currency than the yard's; a code that is not in the pack.
Result<OfferJudged> judge(const Offer& offer, const job::Yard& yard, const practice::Pack& pack);

}  // namespace lapwright::estimate
