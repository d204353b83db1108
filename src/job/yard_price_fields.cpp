#include "yard_price_fields.h"

#include <array>
#include <cmath>

#include "reading.h"

namespace lapwright::job {

namespace {

constexpr Range kMoney{1, 100'000'000};
constexpr Range kShare{0, 200};
constexpr Range kLine{1, 200};

// Percent to hundredths of a percent.
template <auto Member>
void put_share(void* into, const Scalar& value) {
  constexpr double kHundredths = 100;
  static_cast<YardTerms*>(into)->*Member =
      static_cast<std::int64_t>(std::floor(value.value * kHundredths + 0.5));
}

constexpr std::array kPriceFields{
    Field{.key = "item",
          .shape = Shape::text,
          .about = "The estimate's word for it: an `item` of plan.json's estimate.",
          .example = R"("covering.unit")",
          .range = {1, 60},
          .needed = kAllKinds,
          .put = put<&YardPrice::item>},
    Field{.key = "price",
          .shape = Shape::count,
          .about = "In whole pence or cents; leave the line out where it is not known.",
          .example = "85",
          .range = kMoney,
          .needed = kAllKinds,
          .put = put<&YardPrice::price>},
    Field{.key = "per",
          .shape = Shape::choice,
          .about = "What the price is for.",
          .example = R"("piece")",
          .words = kPerWords,
          .needed = kAllKinds,
          .put = put<&YardPrice::per>},
    Field{.key = "currency",
          .shape = Shape::text,
          .about = "Three letters; must be the yard's.",
          .example = R"("GBP")",
          .range = {3, 3},
          .put = put<&YardPrice::currency>},
};

constexpr std::array kLabourFields{
    Field{.key = "per_hour",
          .shape = Shape::count,
          .about = "Of one person, in whole pence or cents.",
          .example = "3200",
          .range = kMoney,
          .put = put<&YardLabour::per_hour>},
    Field{.key = "per_day",
          .shape = Shape::count,
          .about = "Of one person; where both stand, the day holds.",
          .example = "24000",
          .range = kMoney,
          .put = put<&YardLabour::per_day>},
};

void check_labour(Reading& reading, const Document& from, void* into, const Path& path) {
  const auto& labour = *static_cast<const YardLabour*>(into);
  if (labour.per_hour || labour.per_day || !from.members.empty()) return;
  reading.fault(FaultCode::missing_key, path, from.spot, "no rate", "per_hour or per_day",
                "write what an hour or a day of one person costs, or leave labour out");
}

constexpr std::array kProvisionalFields{
    Field{.key = "what",
          .shape = Shape::text,
          .about = "What may turn out to be needed.",
          .example = R"("Rotten boards behind the stack, a metre")",
          .range = kLine,
          .needed = kAllKinds,
          .put = put<&YardTerms::Provisional::what>},
    Field{.key = "price",
          .shape = Shape::count,
          .about = "What it would cost, in whole pence or cents, without VAT.",
          .example = "4500",
          .range = kMoney,
          .needed = kAllKinds,
          .put = put<&YardTerms::Provisional::price>},
};

constexpr std::array kTermsFields{
    Field{.key = "overheads",
          .shape = Shape::percent,
          .about = "Percent on materials, work and access. Default: 0.",
          .example = "10",
          .range = kShare,
          .put = put_share<&YardTerms::overheads>},
    Field{.key = "margin",
          .shape = Shape::percent,
          .about = "Percent on all that and the overheads. Default: 0.",
          .example = "15",
          .range = kShare,
          .put = put_share<&YardTerms::margin>},
    Field{.key = "vat",
          .shape = Shape::percent,
          .about = "Percent on the whole. Where it is absent a quote says that VAT is not reckoned.",
          .example = "20",
          .range = kShare,
          .put = put_share<&YardTerms::vat>},
    Field{.key = "valid_days",
          .shape = Shape::count,
          .about = "How long a quote holds.",
          .example = "30",
          .range = {1, 3650},
          .put = put<&YardTerms::valid_days>},
    Field{.key = "not_included",
          .shape = Shape::names,
          .about = "What the quote says is not included.",
          .example = R"(["Repairs to the brickwork"])",
          .range = kLine,
          .most_items = 30,
          .put = put<&YardTerms::not_included>},
    Field{.key = "leave_out",
          .shape = Shape::names,
          .about =
              "Groups of the estimate that somebody else supplies: covering, battens, timber, fixings, lead, "
              "finishing, labour, access.",
          .example = R"(["covering"])",
          .range = {1, 20},
          .most_items = 8,
          .put = put<&YardTerms::leave_out>},
    Field{.key = "provisional",
          .shape = Shape::objects,
          .about = "Allowed for, not in the total.",
          .example = R"([{"what": "Rotten boards, a metre", "price": 4500}])",
          .of = &kProvisionalTable,
          .most_items = 30,
          .child = child<&YardTerms::provisional>},
};

}  // namespace

constexpr Table kPriceTable{.name = "price", .fields = kPriceFields};
constexpr Table kLabourTable{.name = "labour", .fields = kLabourFields, .check = check_labour};
constexpr Table kTermsTable{.name = "terms", .fields = kTermsFields};
constexpr Table kProvisionalTable{.name = "provisional", .fields = kProvisionalFields};

void check_prices(Reading& reading, const Document& from, const Yard& yard, const Path& path) {
  const Document* prices = from.find("prices");
  if (prices == nullptr || prices->items.size() != yard.prices.size()) return;
  const Path list = path.under("prices");
  for (std::size_t i = 0; i < yard.prices.size(); ++i) {
    const YardPrice& price = yard.prices[i];
    const Path item = list.item(i);
    if (!price.currency.empty() && price.currency != yard.currency) {
      const Document* at = prices->items[i].find("currency");
      reading.fault(FaultCode::contradiction, item.under("currency"), at == nullptr ? SourceSpot{} : at->spot,
                    quoted(price.currency), quoted(yard.currency) + ", the yard's",
                    "write the price in the yard's currency; nothing is converted");
    }
    for (std::size_t k = 0; k < i; ++k) {
      if (yard.prices[k].item != price.item || price.item.empty()) continue;
      reading.fault(FaultCode::duplicate_key, item.under("item"), prices->items[i].spot, quoted(price.item),
                    "each item once", "leave one of them out");
      break;
    }
  }
}

}  // namespace lapwright::job
