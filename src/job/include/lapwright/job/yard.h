// The yard: what lead can be had, what lies in the rack, and what it costs. Format "lapwright-yard/1".
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/base/units.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::job {

// A roll or a sheet on sale. Money is in whole pence or cents everywhere here.
struct YardRoll {
  std::int64_t code = 0;
  Length width;
  Length length;
  std::optional<std::int64_t> price_per_kg;
  std::optional<std::int64_t> price;     // of one; the reader sees that one of the two stands there
  std::optional<std::int64_t> in_stock;  // any number where absent
};

// An opened roll or an offcut in the rack: a rectangle that is paid for.
struct YardOffcut {
  std::int64_t code = 0;
  Length width;
  Length length;
  std::int64_t count = 1;
};

struct Yard {
  std::string title;
  bool unit_is_inches = false;
  std::string currency = "GBP";
  std::vector<YardRoll> rolls;
  std::vector<YardOffcut> offcuts;
  std::int64_t scrap_per_kg = 0;
  Length keep_length;  // least size of an offcut worth keeping, longer side; 0 and 0: nothing is kept
  Length keep_width;
  std::int64_t keep_percent = 80;  // what a kept offcut is worth, of the cheapest price a kg of its code
  Length kerf;                     // what a cut takes away; 0 for a knife
  std::int64_t minimum_order = 0;
  std::int64_t cut_cost = 0;    // what a cut weighs against lead
  std::int64_t width_cost = 0;  // and each further width of roll
};

// Every fault at once, as the job's reader does.
Result<Yard> read_yard(std::string_view bytes);

// The yard as a file again: what --keep-offcuts writes. Reading it gives the same yard.
std::string write_yard(const Yard& yard);

// JSON Schema 2020-12 of the format, indented, ending in a line break.
std::string yard_schema();

}  // namespace lapwright::job
