// The rule pack: every number that is not geometry, with its source and standing.
//
// The pack is data/practice/uk-common.json, embedded at build. A job overrides single rules by name. Rules are asked
// for by name; a name that the pack does not hold is our own mistake (an assert; a test scans the sources for every
// name asked for, and for rules that nobody asks for).
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/base/units.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::practice {

struct Alternative {
  double value = 0;
  std::string source;
  job::Standing standing = job::Standing::practice;
};

struct Rule {
  std::string name;   // "soaker.upstand"
  double value = 0;   // in `unit`
  std::string unit;   // "mm", "deg", "" (a count, a ratio), "kg/m2"
  std::string source;
  job::Standing standing = job::Standing::practice;
  std::string note;
  std::vector<Alternative> alternatives;
  std::optional<double> least;  // below this the trade forbids it (a `wrong` finding), from `bound_source`
  std::optional<double> most;
  std::string bound_source;
  bool overridden = false;
  double pack_value = 0;  // what the pack says, when overridden
};

// A thickness class of lead sheet (BS EN 12588 classes as usually printed).
struct LeadCode {
  std::int64_t code = 0;
  Length thickness;
  double kg_per_m2 = 0;
  std::string colour;
};

// One table's answer to "which headlap for this slate here?".
struct HeadlapAnswer {
  std::string table;  // "supplier table A, moderate"
  std::string source;
  job::Standing standing = job::Standing::practice;
  std::optional<Length> headlap;  // empty: the table does not permit it
  bool interpolated = false;      // between the rows `below` and `above` (degrees)
  double below = 0;
  double above = 0;
  std::string row;                      // the size row that answered
  bool size_was_between = false;        // no row has this size: the next smaller row answered
  std::optional<double> first_pitch;    // the lowest pitch that the row permits
};

class Pack {
 public:
  // The built-in pack. Never fails in a sound build; the Result is for tests that feed broken packs.
  static Result<Pack> built_in();
  static Result<Pack> read(std::string_view bytes);

  const std::string& name() const { return name_; }
  const std::vector<Rule>& rules() const { return rules_; }  // sorted by name

  const Rule& rule(std::string_view name) const;  // REQUIRES that it exists
  const Rule* find(std::string_view name) const;
  Length length(std::string_view name) const { return Length::mm(rule(name).value); }
  double number(std::string_view name) const { return rule(name).value; }

  // The same pack with a job's overrides. Unknown names are faults that offer the nearest known one; a bare number is
  // taken in the file's unit where the rule is a length. Values beyond a rule's least or most are accepted here; the
  // planner says `wrong`.
  Result<Pack> with_overrides(const std::vector<job::Override>& overrides, bool bare_is_inches) const;

  const LeadCode& lead(std::int64_t code) const;  // REQUIRES has_lead(code)
  bool has_lead(std::int64_t code) const;
  const std::vector<LeadCode>& lead_codes() const { return codes_; }
  const std::vector<Length>& strip_widths() const { return strip_widths_; }  // ascending; "guide, second-hand"
  std::optional<Length> next_strip_width(Length at_least) const;

  // Every table that speaks of this exposure, in order of preference: the first that permits is the default choice.
  std::vector<HeadlapAnswer> slate_headlaps(Length length, Length width, Angle pitch, job::Exposure exposure) const;

  // Slate sizes (length, width) that some table permits at this pitch and exposure, with that table's headlap.
  struct SizeOffer {
    Length length;
    Length width;
    Length headlap;
    std::string table;
  };
  std::vector<SizeOffer> slate_sizes_permitted(Angle pitch, job::Exposure exposure) const;

 private:
  std::string name_;
  std::vector<Rule> rules_;
  std::vector<LeadCode> codes_;
  std::vector<Length> strip_widths_;
  struct HeadlapTable;
  std::vector<HeadlapTable> headlap_tables_;
  friend struct PackReader;
};

}  // namespace lapwright::practice
