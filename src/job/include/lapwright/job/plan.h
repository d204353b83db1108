// The plan: everything that was worked out from a survey, as plain structs. Format "lapwright-plan/1".
//
// Places are in a slope's own frame, mm: u along the eaves from its left end, s up the slope from the tail of
// the eaves course, n square to the slope, outward. n = 0 is the plane that the soakers' legs lie in (the
// face of the unit below); the finished face of the units is at n = unit thickness + camber.
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/geom/net.h>
#include <lapwright/geom/space.h>
#include <lapwright/job/cutting.h>
#include <lapwright/job/existing.h>
#include <lapwright/job/finding.h>
#include <lapwright/job/frontier.h>
#include <lapwright/job/odds.h>
#include <lapwright/job/survey.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace lapwright::job {

// How far a number may be trusted, and where it comes from.
enum class Standing : std::uint8_t {
  standard,  // a published standard, quoted by a page that was read
  guide,     // a published trade-body or warranty guide
  book,      // a printed handbook
  geometry,  // follows from geometry
  practice,  // common practice, no source
  memory,    // recalled, not seen
  measured,  // from the survey
};
std::string_view name_of(Standing v);  // "std", "guide", "book", "geom", "practice", "memory", "survey"

// One named quantity of a formula. `value` is in `unit`: "mm", "deg", "kg", "kg/m2", "mm2", "" (a count or
// ratio).
struct Term {
  std::string symbol;  // as it stands in the formula
  double value = 0;
  std::string unit;
  std::string from;  // "survey", "set-out", "rule soaker.upstand", ...
};

// A number that can answer why. `formula` uses the terms' symbols, numbers, + - * / ( ), and the functions
// min max ceil floor sin cos tan sqrt (angles in degrees); evaluated on the terms it gives `value` (a test
// does so).
struct Figure {
  std::string name;  // names the sentence in the catalogue: figure.<kind>.<name>
  double value = 0;
  std::string unit;
  std::string formula;
  std::vector<Term> terms;
  std::string rule;  // the practice rule that decides, or empty when geometry alone does
  std::string source;
  Standing standing = Standing::geometry;
};

// One detail as judged at one face: `level` note means right.
struct Choice {
  std::string slope;
  std::string junction;
  std::string face;
  std::string detail;  // its word in a job file
  Level level = Level::note;
  bool taken = false;  // right, or insisted on
  std::string rule;    // names its reason in the catalogue, as a finding's does
  Params params;
  std::string text;
  std::string source;
};

struct SetAlternative {
  double value = 0;
  std::string source;
  Standing standing = Standing::practice;
  bool chosen = false;
};

struct Batten {
  Length mark;          // upper edge, up the slope from the tail of the eaves course
  std::int64_t course;  // −1: the under-course
};

struct SetOut {
  std::string slope;
  Length gauge;    // of the eaves set
  Length headlap;  // least over all courses
  std::int64_t courses = 0;
  std::vector<Length> tails;
  std::vector<Length>
      lengths;  // of each course's unit before it is cut at the top edge; one entry per change:
  std::vector<std::int64_t> length_from_course;  // lengths[i] holds from this course up
  std::vector<Batten> battens;
  std::vector<Figure> figures;
  std::vector<SetAlternative> headlaps;  // every table that answers, the chosen one marked
};

struct UnitRun {
  Length width;
  std::int64_t count = 0;
};

// Units of one course side by side; a stack parts a course into several rows, and those before and behind it
// are shorter. Rows of a course follow each other from left to right; where two meet without a joint one unit
// lies in both, cut round a corner. Unit i begins at from + (widths before it) + i·gap.
struct Row {
  std::string slope;
  std::int64_t course = 0;  // the first that hangs from it; −1: the under-course
  Length tail;
  Length length;  // of its units as laid (cut at the top edge)
  Length from;
  std::vector<UnitRun> widths;
  Length gap;      // open perp between neighbours
  Length nail_up;  // nails of a unit: from its tail
  Length nail_in;  // and in from each of its sides, or a quarter of a narrower unit's width
  bool nailed = true;
  // Where the row's end follows a line that is not square to the course (a valley, a hip, a skew wall): u at
  // the row's tail and at its head. Units there are cut to it.
  struct Rake {
    Length at_tail;
    Length at_head;
  };
  std::optional<Rake> left_rake;
  std::optional<Rake> right_rake;
  struct NailLeftOut {
    std::int64_t unit = 0;  // counted from the left, 0 first
    Hand side = Hand::left;
  };
  std::vector<NailLeftOut> nails_left_out;
};

struct Placement {
  std::int64_t course = -2;  // −2: not tied to a course
  geom::Frame frame;         // of the base panel, in the slope's (u, s, n)
};

struct Piece {
  std::string mark;
  std::string kind;  // "soaker", "step-flashing", "cover-flashing", ...
  std::string slope;
  std::string junction;
  std::string face;  // of a junction with several: "front", "left side", "back", "stretch 2"
  std::int64_t count = 0;
  std::optional<std::int64_t> code;
  std::string metal;                // other than lead
  std::optional<Length> thickness;  // of other metals
  Length length;                    // along the junction (a soaker's: up the slope), of the blank
  Length width;                     // across it, of the blank
  geom::Net net;
  geom::GridPoint base_point;  // a point of the net's base panel
  Area area;
  Mass mass;
  std::vector<Figure> figures;
  std::vector<Placement> placements;
  // Of a detail that is wrong here, planned because somebody insists: shown so that they see why. It is
  // marked so wherever it is shown, and is never cut, ordered, weighed into a sum or fitted.
  bool wrong = false;
};

// One line of the fitting list. Texts come from the catalogue by `step` and `params`.
struct WorkStep {
  std::string slope;
  std::string junction;
  std::int64_t course = -2;  // −2: not tied to a course
  std::string step;          // catalogue key, e.g. "work.soaker"
  std::string mark;          // the piece, when the step fits one
  Params params;
  std::string text;
};

struct OverrideUsed {
  std::string rule;
  double value = 0;
  double pack_value = 0;
  std::string unit;
};

struct MemoryUsed {
  std::string rule;
  double value = 0;
  std::string unit;
};

struct PracticeUsed {
  std::string pack;
  std::vector<OverrideUsed> overrides;
  std::vector<MemoryUsed> from_memory;  // values used in this plan that rest on memory
};

// One line of the estimate: something to buy, or work to allow for. Its words are the catalogue's
// "item.<item>", with `params`.
struct EstimateLine {
  std::string group;  // "covering", "battens", "timber", "fixings", "lead", "finishing", "labour", "access"
  std::string item;   // "covering.unit"
  std::string slope;  // empty: of the whole job
  Params params;
  std::string text;
  double quantity = 0;  // what to buy or to allow, with the waste that its figure names
  std::string unit;     // "" (pieces), "m", "m2", "kg", "l", "h", "days", "weeks"
  Figure figure;        // gives `quantity`
};

// Battens of one slope that are cut alike, from its left end; joints lie on rafters.
struct BattenRun {
  std::string slope;
  std::vector<Length> lengths;
  std::int64_t count = 0;
};

struct Estimate {
  std::vector<EstimateLine> lines;
  std::vector<BattenRun> battens;
};

// One line of the price: an estimate's line, and what it costs. Money is in whole pence or cents.
struct PriceLine {
  std::string group;
  std::string item;
  std::string slope;
  std::string text;
  double quantity = 0;                 // in `per`
  std::string per;                     // "piece", "m", "kg", "hour", ...
  std::optional<std::int64_t> price;   // of one; absent: nobody said, and the sum goes without it
  std::optional<std::int64_t> amount;  // quantity × price, to the nearest
};

// A sum of the price, in the order of reckoning; `name` names its text: "price.<name>". It carries a figure
// of the same value, so that it can be argued with.
struct PriceSum {
  std::string name;  // "materials", "labour", "access", "overheads", "margin", "net", "vat", "total"
  std::int64_t amount = 0;
  Figure figure;
};

struct Price {
  std::string currency;
  std::string yard;       // its title
  bool invented = false;  // the yard says that its prices are
  std::vector<PriceLine> lines;
  std::vector<PriceSum> sums;
  std::int64_t missing = 0;         // lines without a price: the sums go without them
  std::optional<std::int64_t> vat;  // hundredths of a percent
  std::int64_t valid_days = 0;
  std::vector<std::string> not_included;
  struct Provisional {
    std::string what;
    std::int64_t price = 0;
  };
  std::vector<Provisional> provisional;  // not in the total
};

struct Plan {
  std::string title;
  std::string fingerprint;
  std::string engine;  // version
  PracticeUsed practice;
  std::vector<SetOut> set_out;
  std::vector<Piece> pieces;
  std::vector<Row> rows;
  std::vector<Choice> choices;
  std::vector<Finding> findings;
  std::vector<Frontier> check;       // of every junction that was traced
  std::optional<Existing> existing;  // where the job says what is there already, or where it leaks
  std::vector<Odds> odds;            // only where they were asked for
  std::vector<WorkStep> order_of_work;
  Estimate estimate;
  std::optional<Price> price;      // where a yard file prices the work
  std::optional<Cutting> cutting;  // absent where no lead is to be cut
};

}  // namespace lapwright::job
