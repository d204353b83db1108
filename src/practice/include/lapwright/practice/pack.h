// The rule pack: every number that is not geometry, with its source and standing.
//
// The pack is data/practice/uk-common.json, embedded at build. A job overrides single rules by name. Rules
// are asked for by name; a name that the pack does not hold is our own mistake (an assert; a test scans the
// sources for every name asked for, and for rules that nobody asks for).
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/base/units.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace lapwright::practice {

struct Alternative {
  double value = 0;
  std::string source;
  job::Standing standing = job::Standing::practice;
};

struct Rule {
  std::string name;  // "soaker.upstand"
  double value = 0;  // in `unit`
  std::string unit;  // "mm", "deg", "" (a count, a ratio), "kg", "kg/m2"
  std::string source;
  job::Standing standing = job::Standing::practice;
  std::string note;
  std::vector<Alternative> alternatives;
  std::optional<double> least;  // below this the trade forbids it (a `wrong` finding), from `bound_source`
  std::optional<double> most;
  std::string bound_source;  // never empty when either bound is set
  bool may_be_zero = false;  // others are divided by, or make no piece at nought
  bool overridden = false;   // then source and standing are of the job's value:
  double pack_value = 0;     // what the pack says, overridden or not
};

// A thickness class of lead sheet (BS EN 12588 classes as usually printed).
struct LeadCode {
  std::int64_t code = 0;
  Length thickness;
  double kg_per_m2 = 0;
  std::string colour;
  std::string source;
  job::Standing standing = job::Standing::standard;
};

// A metal other than lead that soakers are made of.
struct SoakerMetal {
  std::string metal;  // "aluminium"
  Length thickness;
  double density = 0;  // kg/m³
  std::string source;
  job::Standing standing = job::Standing::guide;
};

// One table's answer to "which headlap for this slate here?".
//
// Between printed pitches the headlap is linear and `interpolated` says so. Above the last printed pitch it
// is that pitch's (the moderate tables print 85°, the severe ones end at 45°). Below the first printed pitch
// nothing is guessed: not permitted.
struct HeadlapAnswer {
  std::string table;  // "supplier table A, severe"
  std::string source;
  job::Standing standing = job::Standing::practice;
  std::optional<Length> headlap;  // empty: the table does not permit it
  bool interpolated = false;      // between the printed pitches `below` and `above` (degrees)
  double below = 0;               // equal to `above` when one printed pitch answered
  double above = 0;
  std::string row;  // the size row that answered: "500×250", "smaller"; empty: none is small enough
  bool size_was_between = false;      // no row has this size: the next smaller row answered
  std::optional<double> first_pitch;  // the lowest pitch that the row permits; empty when no row answered
  bool shown_only =
      false;  // a list that no standard or trade body stands behind: shown, never the default choice
  bool stands_in = false;  // no table is printed for this exposure: the next milder one's answers
};

// The default choice: the first that permits and is not `shown_only`. Null when there is none.
const HeadlapAnswer* default_headlap(const std::vector<HeadlapAnswer>& answers);

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

  // Every rule that rule(), length() or number() was asked for since this pack was made, sorted by name: what
  // a plan rests on. It is a note kept in the pack itself, so a pack serves one planning at a time.
  std::vector<const Rule*> asked() const;

  // The same pack with a job's overrides. Unknown names are faults that offer the nearest known one; a bare
  // number is taken in the file's unit where the rule is a length. Values beyond a rule's least or most are
  // accepted here; the planner says `wrong`. Values that no roof has (below 0, 0 where a rule may not be,
  // beyond 100 m) are faults. A value that the pack or one of its alternatives names keeps that one's source
  // and standing; any other is "set by the job", Standing::measured.
  Result<Pack> with_overrides(const std::vector<job::Override>& overrides, bool bare_is_inches) const;

  const LeadCode& lead(std::int64_t code) const;  // REQUIRES has_lead(code)
  bool has_lead(std::int64_t code) const;
  const std::vector<LeadCode>& lead_codes() const { return codes_; }
  const std::vector<SoakerMetal>& soaker_metals() const { return metals_; }
  const SoakerMetal* soaker_metal(std::string_view metal) const;  // null: not one of them

  // Widths that lead rolls are sold in, ascending, and those that only some yards have. The yard's own list
  // rules.
  const std::vector<Length>& strip_widths() const { return strip_widths_; }
  const std::vector<Length>& strip_widths_in_some_yards() const { return rare_strip_widths_; }
  const std::string& strip_widths_source() const { return strip_widths_source_; }
  job::Standing strip_widths_standing() const { return strip_widths_standing_; }
  std::optional<Length> next_strip_width(Length at_least) const;  // of strip_widths(); empty: wider than any

  // Every table that speaks of this exposure and size, in order of preference; default_headlap() chooses. A
  // table that differs from an earlier one in a single cell answers only where its answer differs.
  std::vector<HeadlapAnswer> slate_headlaps(Length length, Length width, Angle pitch,
                                            job::Exposure exposure) const;

  // Metric slate sizes (length, width) that some table has a row for and permits at this pitch and exposure,
  // largest first, with the default choice's headlap.
  struct SizeOffer {
    Length length;
    Length width;
    Length headlap;
    std::string table;
  };
  std::vector<SizeOffer> slate_sizes_permitted(Angle pitch, job::Exposure exposure) const;

 private:
  struct HeadlapRow {
    std::string name;                                 // "500×250", "smaller"
    std::optional<std::pair<Length, Length>> size;    // empty: anything smaller than the rows above it
    std::vector<std::pair<double, Length>> headlaps;  // by pitch in degrees, ascending
  };
  struct HeadlapTable {
    std::string table;
    std::string source;
    job::Standing standing = job::Standing::practice;
    std::vector<job::Exposure> exposures;
    bool variant = false;  // differs from an earlier table in a single cell
    bool shown_only = false;
    std::optional<double> ends;  // says nothing above this pitch
    std::vector<HeadlapRow> rows;
  };
  static std::optional<HeadlapAnswer> answer(const HeadlapTable& table, Length length, Length width,
                                             double pitch);

  std::string name_;
  std::vector<Rule> rules_;
  mutable std::vector<bool> asked_;  // beside rules_, once any is asked for
  std::vector<LeadCode> codes_;
  std::vector<SoakerMetal> metals_;
  std::vector<Length> strip_widths_;
  std::vector<Length> rare_strip_widths_;
  std::string strip_widths_source_;
  job::Standing strip_widths_standing_ = job::Standing::guide;
  std::vector<std::pair<Length, Length>> slate_sizes_;
  std::vector<HeadlapTable> headlap_tables_;
  friend struct PackReader;
};

}  // namespace lapwright::practice
