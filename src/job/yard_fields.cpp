#include "yard_fields.h"

#include <lapwright/job/yard.h>

#include <algorithm>
#include <array>

#include "reading.h"
#include "yard_price_fields.h"

namespace lapwright::job {

namespace {

constexpr std::array<Word, 2> kPricesAreWords{"own", "invented"};
constexpr Range kCode{3, 8};
constexpr Range kWidth{50, 3000};
constexpr Range kLength{100, 100'000};
constexpr Range kMoney{1, 100'000'000};
constexpr Range kMoneyOrNone{0, 100'000'000};
constexpr Range kPerKg{1, 1'000'000};
constexpr std::array<Word, 1> kFormatWord{kYardFormat};

// One price and only one: a kilogram or a whole roll.
void check_roll(Reading& reading, const Document& from, void* into, const Path& path) {
  const auto& roll = *static_cast<const YardRoll*>(into);
  const bool per_kg = from.find("price_per_kg") != nullptr;
  const bool each = from.find("price") != nullptr;
  if (!per_kg && !each) {
    reading.fault(FaultCode::missing_key, path, from.spot, "no price", "price_per_kg or price",
                  "write what a kilogram or the whole roll costs, in whole pence or cents");
  }
  if (per_kg && each) {
    reading.fault(FaultCode::contradiction, path.under("price"), from.find("price")->spot,
                  "price beside price_per_kg", "one of the two", "remove one");
  }
  if (roll.width > roll.length && roll.length > Length{}) {
    reading.fault(FaultCode::contradiction, path.under("width"),
                  from.find("width") == nullptr ? from.spot : from.find("width")->spot,
                  "a width over the length", "a width that is at most the length", "swap the two");
  }
}

void check_offcut(Reading& reading, const Document& from, void* into, const Path& path) {
  const auto& offcut = *static_cast<const YardOffcut*>(into);
  if (offcut.width > offcut.length && offcut.length > Length{}) {
    reading.fault(FaultCode::contradiction, path.under("width"),
                  from.find("width") == nullptr ? from.spot : from.find("width")->spot,
                  "a width over the length", "a width that is at most the length", "swap the two");
  }
}

void put_keep(void* into, const Scalar& value) {
  Yard& yard = *static_cast<Yard*>(into);
  (yard.keep_length == Length{} ? yard.keep_length : yard.keep_width) = Length::mm(value.value);
}

void check_currency(Reading& reading, const Document& from, const Yard& yard, const Path& path) {
  const Document* given = from.find("currency");
  const bool letters =
      std::all_of(yard.currency.begin(), yard.currency.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
  if (given == nullptr || letters) return;
  reading.fault(FaultCode::bad_choice, path.under("currency"), given->spot, quoted(yard.currency),
                "three capital letters, as in GBP or EUR", "write the currency's code");
}

void check_yard(Reading& reading, const Document& from, void* into, const Path& path) {
  Yard& yard = *static_cast<Yard*>(into);
  check_currency(reading, from, yard, path);
  for (std::size_t i = 0; i < yard.rolls.size(); ++i) {
    if (!yard.rolls[i].price_per_kg || *yard.rolls[i].price_per_kg > yard.scrap_per_kg) continue;
    const Path rolls = path.under("rolls");
    const Document* list = from.find("rolls");
    const SourceSpot spot = list != nullptr && i < list->items.size() ? list->items[i].spot : from.spot;
    reading.fault(FaultCode::contradiction, rolls.item(i), spot, "new lead that is no dearer than scrap",
                  "a price_per_kg above scrap_per_kg",
                  "look at both again; money is in whole pence or cents");
  }
  if (yard.keep_width > yard.keep_length) std::swap(yard.keep_width, yard.keep_length);
  check_prices(reading, from, yard, path);
  if (yard.rolls.empty() && yard.offcuts.empty() && from.find("rolls") != nullptr) {
    reading.fault(FaultCode::contradiction, path.under("rolls"), from.find("rolls")->spot,
                  "no roll and no offcut", "at least one roll or offcut", "list what the yard has");
  }
}

constexpr std::array kRollFields{
    Field{.key = "code",
          .shape = Shape::count,
          .about = "Thickness class, 3 to 8.",
          .example = "4",
          .range = kCode,
          .needed = kAllKinds,
          .put = put<&YardRoll::code>},
    Field{.key = "width",
          .shape = Shape::length,
          .about = "Across the roll; the shorter side of a sheet.",
          .example = "300",
          .range = kWidth,
          .needed = kAllKinds,
          .put = put<&YardRoll::width>},
    Field{.key = "length",
          .shape = Shape::length,
          .about = "Along the roll.",
          .example = "6000",
          .range = kLength,
          .needed = kAllKinds,
          .put = put<&YardRoll::length>},
    Field{.key = "price_per_kg",
          .shape = Shape::count,
          .about = "In whole pence or cents.",
          .example = "310",
          .range = kPerKg,
          .put = put<&YardRoll::price_per_kg>},
    Field{.key = "price",
          .shape = Shape::count,
          .about = "Of the whole roll, in whole pence or cents.",
          .example = "11400",
          .range = kMoney,
          .put = put<&YardRoll::price>},
    Field{.key = "in_stock",
          .shape = Shape::count,
          .about = "How many the yard has. Default: as many as are asked for.",
          .example = "2",
          .range = {1, 100'000},
          .put = put<&YardRoll::in_stock>},
};
constexpr Table kRollTable{.name = "roll", .fields = kRollFields, .check = check_roll};

constexpr std::array kOffcutFields{
    Field{.key = "code",
          .shape = Shape::count,
          .about = "Thickness class, 3 to 8.",
          .example = "4",
          .range = kCode,
          .needed = kAllKinds,
          .put = put<&YardOffcut::code>},
    Field{.key = "width",
          .shape = Shape::length,
          .about = "The shorter side.",
          .example = "300",
          .range = {20, 3000},
          .needed = kAllKinds,
          .put = put<&YardOffcut::width>},
    Field{.key = "length",
          .shape = Shape::length,
          .about = "The longer side.",
          .example = "2150",
          .range = {20, 100'000},
          .needed = kAllKinds,
          .put = put<&YardOffcut::length>},
    Field{.key = "count",
          .shape = Shape::count,
          .about = "How many of this size. Default: 1.",
          .example = "1",
          .range = {1, 1000},
          .put = put<&YardOffcut::count>},
};
constexpr Table kOffcutTable{.name = "offcut", .fields = kOffcutFields, .check = check_offcut};

constexpr std::array kYardFields{
    Field{.key = "format",
          .shape = Shape::format,
          .about = "The format of this file.",
          .example = R"("lapwright-yard/1")",
          .words = kFormatWord,
          .needed = kAllKinds},
    Field{.key = "title",
          .shape = Shape::text,
          .about = "Printed with the cutting list.",
          .example = R"("Our rack, March")",
          .range = {0, 200},
          .put = put<&Yard::title>},
    Field{.key = "unit",
          .shape = Shape::choice,
          .about = "Unit of bare numbers that are lengths. Default: mm.",
          .example = R"("mm")",
          .words = kShownInWords,
          .put = put<&Yard::unit_is_inches>},
    Field{.key = "currency",
          .shape = Shape::text,
          .about = "Three letters; money is in its hundredth part. Default: GBP.",
          .example = R"("GBP")",
          .range = {3, 3},
          .put = put<&Yard::currency>},
    Field{.key = "rolls",
          .shape = Shape::objects,
          .about = "Rolls and sheets on sale.",
          .example = R"([{"code": 4, "width": 300, "length": 6000, "price_per_kg": 310}])",
          .of = &kRollTable,
          .most_items = 500,
          .needed = kAllKinds,
          .child = child<&Yard::rolls>},
    Field{.key = "offcuts",
          .shape = Shape::objects,
          .about = "Opened rolls and offcuts in the rack: paid for, worth their scrap.",
          .example = R"([{"code": 4, "width": 300, "length": 2150}])",
          .of = &kOffcutTable,
          .most_items = 500,
          .child = child<&Yard::offcuts>},
    Field{.key = "scrap_per_kg",
          .shape = Shape::count,
          .about = "What a kilogram of scrap brings, in whole pence or cents. Default: 0.",
          .example = "120",
          .range = {0, 1'000'000},
          .put = put<&Yard::scrap_per_kg>},
    Field{.key = "keep_from",
          .shape = Shape::measured_lengths,
          .about = "Least [length, width] of an offcut that is worth keeping. Default: nothing is kept.",
          .example = "[500, 150]",
          .range = {20, 100'000},
          .least_items = 2,
          .most_items = 2,
          .put = put_keep},
    Field{
        .key = "keep_percent",
        .shape = Shape::count,
        .about =
            "What a kept offcut is worth: percent of the cheapest price a kilogram of its code. Default: 80.",
        .example = "80",
        .range = {0, 95},
        .put = put<&Yard::keep_percent>},
    Field{.key = "kerf",
          .shape = Shape::length,
          .about = "What a cut takes away: 0, the default, for a knife.",
          .example = "0",
          .range = {0, 10},
          .put = put<&Yard::kerf>},
    Field{.key = "minimum_order",
          .shape = Shape::count,
          .about = "The least that the merchant asks for an order, in whole pence or cents. Default: 0.",
          .example = "5000",
          .range = kMoneyOrNone,
          .put = put<&Yard::minimum_order>},
    Field{.key = "cut_cost",
          .shape = Shape::count,
          .about = "What a cut weighs against lead, in whole pence or cents. Default: 0, only the tie is "
                   "decided by it.",
          .example = "10",
          .range = {0, 100'000},
          .put = put<&Yard::cut_cost>},
    Field{.key = "width_cost",
          .shape = Shape::count,
          .about = "What each different width of roll weighs against lead. Default: 0.",
          .example = "0",
          .range = {0, 1'000'000},
          .put = put<&Yard::width_cost>},
    Field{.key = "prices_are",
          .shape = Shape::choice,
          .about = "invented: said on every paper that shows a price. Default: own.",
          .example = R"("own")",
          .words = kPricesAreWords,
          .put = put<&Yard::prices_invented>},
    Field{.key = "prices",
          .shape = Shape::objects,
          .about = "What the things of an estimate cost. What stands in no price is listed as missing, never "
                   "as nought.",
          .example = R"([{"item": "covering.unit", "price": 85, "per": "piece"}])",
          .of = &kPriceTable,
          .most_items = 500,
          .child = child<&Yard::prices>},
    Field{.key = "labour",
          .shape = Shape::object,
          .about = "What an hour or a day of work costs.",
          .example = R"({"per_hour": 3200})",
          .of = &kLabourTable,
          .child = child_if_any<&Yard::labour>},
    Field{.key = "terms",
          .shape = Shape::object,
          .about = "What is added, and what a quote says.",
          .example = R"({"overheads": 10, "margin": 15, "vat": 20})",
          .of = &kTermsTable,
          .child = child_if_any<&Yard::terms>},
};
constexpr Table kYardTable{.name = "yard", .fields = kYardFields, .check = check_yard};

constexpr std::array<const Table*, 7> kTables{&kYardTable,   &kRollTable,  &kOffcutTable,     &kPriceTable,
                                              &kLabourTable, &kTermsTable, &kProvisionalTable};

}  // namespace

const Table& yard_table() {
  return kYardTable;
}
std::span<const Table* const> yard_tables() {
  return kTables;
}

}  // namespace lapwright::job
