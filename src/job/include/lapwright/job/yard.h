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

// What a price is for.
enum class Per : std::uint8_t { piece, m, m2, kg, l, hour, day, week, length };
std::string_view name_of(Per v);

// What one thing of the estimate costs; `item` is the estimate's own word for it ("covering.unit").
struct YardPrice {
  std::string item;
  std::int64_t price = 0;
  Per per = Per::piece;
  std::string currency;  // where it is said; the reader sees that it is the yard's
};

struct YardLabour {
  std::optional<std::int64_t> per_hour;  // of one person
  std::optional<std::int64_t> per_day;   // of one person; where both stand, the day holds
};

// What is added and said when a price is handed to a customer. Percentages are in hundredths of a percent, so
// that sums stay whole.
struct YardTerms {
  std::int64_t overheads = 0;       // on materials, work and access
  std::int64_t margin = 0;          // on that and the overheads
  std::optional<std::int64_t> vat;  // not said: a quote says so
  std::int64_t valid_days = 0;      // 0: not said
  std::vector<std::string> not_included;
  std::vector<std::string> leave_out;  // groups of the estimate that are not priced: "covering", ...
  struct Provisional {
    std::string what;
    std::int64_t price = 0;
  };
  std::vector<Provisional> provisional;  // allowed for, not in the total
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
  std::int64_t cut_cost = 0;     // what a cut weighs against lead
  std::int64_t width_cost = 0;   // and each further width of roll
  bool prices_invented = false;  // said on every paper that shows them
  std::vector<YardPrice> prices;
  std::optional<YardLabour> labour;
  std::optional<YardTerms> terms;
};

// Every fault at once, as the job's reader does.
Result<Yard> read_yard(std::string_view bytes);

// The yard as a file again: what --keep-offcuts writes. Reading it gives the same yard.
std::string write_yard(const Yard& yard);

// JSON Schema 2020-12 of the format, indented, ending in a line break.
std::string yard_schema();

}  // namespace lapwright::job
