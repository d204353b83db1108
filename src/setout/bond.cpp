#include "bond.h"

#include "around.h"
#include "battens.h"
#include "gauge.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/defaults.h>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace lapwright::setout {

namespace {

using job::CoveringKind;
using job::FirstUnit;
using job::Hand;
using job::JunctionKind;
using job::Level;

struct Bond {
  Length unit;
  Length and_half;  // a unit and a half
  Length joint;
  Length narrowest;
};

// The wall that stands at one side of the slope beside this course, if any.
const job::Junction* wall_at(const job::Slope& slope, Hand hand, Length tail, Length next_tail) {
  for (const job::Junction& j : slope.junctions) {
    if (j.kind != JunctionKind::side || j.hand != hand) continue;
    if (j.from < next_tail - tolerance::kNoise &&
        tail + tolerance::kNoise < j.to.value_or(slope.rafter.value)) {
      return &j;
    }
  }
  return nullptr;
}

void add_run(std::vector<job::UnitRun>& runs, Length width, std::int64_t count) {
  if (count <= 0) return;
  if (!runs.empty() && abs(runs.back().width - width) < tolerance::kNoise) {
    runs.back().count += count;
  } else {
    runs.push_back({width, count});
  }
}

// Fills `room` (clear width, between the gaps) from the left, the first unit `first` wide. The last unit is
// cut to what is left; where that would be narrower than allowed it is cut, together with its neighbour, from
// a unit and a half, or the two share what is left.
std::vector<job::UnitRun> fill(Length room, Length first, const Bond& bond) {
  std::vector<job::UnitRun> runs;
  if (room <= first + bond.joint) {
    add_run(runs, min(room, first), 1);
    return runs;
  }
  const Length pitch = bond.unit + bond.joint;
  const Length after_first = room - first - bond.joint;
  const std::int64_t whole = whole_down((after_first + bond.joint) / pitch);
  // What is left to the right of the last whole unit and the joint beside it.
  const Length rest = after_first - pitch * static_cast<double>(whole);
  add_run(runs, first, 1);
  if (rest <= tolerance::kNoise) {  // ends within a joint of the side
    add_run(runs, bond.unit, whole);
    return runs;
  }
  if (rest >= bond.narrowest - tolerance::kNoise) {
    add_run(runs, bond.unit, whole);
    add_run(runs, rest, 1);
    return runs;
  }
  if (whole == 0) {  // the first unit and the rest share the room
    const Length both = room - bond.joint;
    runs.clear();
    if (both <= bond.and_half) {
      add_run(runs, both, 1);
    } else {
      add_run(runs, both / 2.0, 2);
    }
    return runs;
  }
  const Length merged = rest + pitch;
  add_run(runs, bond.unit, whole - 1);
  if (merged <= bond.and_half + bond.joint + tolerance::kNoise) {
    add_run(runs, min(merged, bond.and_half), 1);
  } else {
    add_run(runs, (merged - bond.joint) / 2.0, 2);
  }
  return runs;
}

// Perps of a row, from the slope's left end: the middle of each open joint.
std::vector<Length> perps(const job::Row& row) {
  std::vector<Length> out;
  Length at = row.from;
  std::int64_t total = 0;
  for (const auto& run : row.widths) total += run.count;
  std::int64_t done = 0;
  for (const auto& run : row.widths) {
    for (std::int64_t i = 0; i < run.count; ++i) {
      at += run.width;
      ++done;
      if (done < total) out.push_back(at + row.gap / 2.0);
      at += row.gap;
    }
  }
  return out;
}

// The least distance between a perp of one row and one of the other; empty when either has none.
std::optional<Length> least_sidelap(const job::Row& a, const job::Row& b) {
  const auto pa = perps(a);
  const auto pb = perps(b);
  std::optional<Length> least;
  std::size_t j = 0;
  for (const Length p : pa) {
    while (j + 1 < pb.size() && pb[j + 1] <= p) ++j;
    for (std::size_t k = j; k < pb.size() && k <= j + 1; ++k) {
      const Length d = abs(pb[k] - p);
      if (!least || d < *least) least = d;
    }
  }
  return least;
}

bool same_units(const job::Row& a, const job::Row& b) {
  if (a.from != b.from || a.widths.size() != b.widths.size()) return false;
  for (std::size_t i = 0; i < a.widths.size(); ++i) {
    if (a.widths[i].count != b.widths[i].count || a.widths[i].width != b.widths[i].width) return false;
  }
  return true;
}

Bond bond_of(const job::Covering& c, const practice::Pack& pack) {
  const bool slate = c.kind == CoveringKind::slate;
  Bond bond;
  bond.unit = c.width.value;
  bond.and_half = bond.unit * pack.number("bond.unit_and_half");
  bond.joint = practice::open_joint(c, pack);
  // A narrower unit than the rule's own figure cannot be asked to be wider than itself.
  bond.narrowest = min(slate ? pack.length("bond.narrowest_slate") : bond.unit / 2.0, bond.unit);
  return bond;
}

// How many units of a unit and a half (or cut from one) stand at the walls.
std::int64_t count_and_halves(const std::vector<job::Row>& rows, const Bond& bond) {
  std::int64_t n = 0;
  for (const job::Row& row : rows) {
    if (row.course < 0) continue;
    for (const auto& run : row.widths) {
      if (run.width > bond.unit + tolerance::kNoise) n += run.count;
    }
  }
  return n;
}

void say_bond(const job::Slope& slope, const Bond& bond, const practice::Pack& pack,
              job::SlopeLayout& layout) {
  const std::int64_t and_halves = count_and_halves(layout.rows, bond);
  if (and_halves == 0) return;
  const practice::Rule& narrowest =
      pack.rule(slope.covering.kind == CoveringKind::slate ? "bond.narrowest_slate" : "bond.narrowest_tile");
  layout.findings.push_back(
      {Level::note,
       "bond.no_half_units",
       {{"half", (bond.unit / 2.0).in_mm(), "mm"},
        {"and_half", bond.and_half.in_mm(), "mm"},
        {"narrowest", bond.narrowest.in_mm(), "mm"},
        {"count", static_cast<double>(and_halves), ""},
        {"first", slope.covering.first_unit == FirstUnit::unit ? "unit.whole" : "unit.and_half", "key"}},
       "",
       static_cast<double>(and_halves),
       std::nullopt,
       narrowest.source,
       slope.name});
}

// Units narrower than the rule asks for: only where the units themselves are so narrow that sharing out the
// rest still leaves less.
void check_narrow_cuts(const job::Slope& slope, const Bond& bond, const practice::Pack& pack,
                       job::SlopeLayout& layout) {
  if (slope.covering.kind != CoveringKind::slate) return;
  Length least = bond.unit;
  for (const job::Row& row : layout.rows) {
    if (row.course < 0) continue;
    for (const auto& run : row.widths) least = min(least, run.width);
  }
  if (least >= bond.narrowest - tolerance::kNoise) return;
  layout.findings.push_back({Level::doubt,
                             "bond.narrow_cut",
                             {{"width", least.in_mm(), "mm"}, {"narrowest", bond.narrowest.in_mm(), "mm"}},
                             "",
                             least.in_mm(),
                             bond.narrowest.in_mm(),
                             pack.rule("bond.narrowest_slate").source,
                             slope.name});
}

void check_sidelap(const job::Slope& slope, const practice::Pack& pack, job::SlopeLayout& layout) {
  const CoveringKind kind = slope.covering.kind;
  if (!is_double_lap(kind)) return;
  const practice::Rule& rule =
      pack.rule(kind == CoveringKind::plain_tile ? "bond.sidelap_tile" : "bond.sidelap_slate");
  std::optional<Length> least;
  std::int64_t where = 0;
  for (std::size_t i = 1; i + 1 < layout.rows.size(); ++i) {
    const job::Row& a = layout.rows[i];
    const job::Row& b = layout.rows[i + 1];
    // Rows repeat in pairs: looking at the first pair of each kind is looking at all.
    if (i >= 3 && same_units(a, layout.rows[i - 2]) && same_units(b, layout.rows[i - 1])) continue;
    const auto lap = least_sidelap(a, b);
    if (lap && (!least || *lap < *least)) {
      least = lap;
      where = a.course;
    }
  }
  if (least && *least < Length::mm(rule.value) - tolerance::kNoise) {
    layout.findings.push_back({Level::doubt,
                               "bond.sidelap_short",
                               {{"sidelap", least->in_mm(), "mm"},
                                {"least", rule.value, "mm"},
                                {"course", static_cast<double>(where + 1), ""}},
                               "",
                               least->in_mm(),
                               rule.value,
                               rule.source,
                               slope.name});
  }
}

}  // namespace

void lay_units(const job::Survey& survey, std::size_t index, const practice::Pack& pack,
               job::SlopeLayout& layout) {
  const job::Slope& slope = survey.slopes[index];
  const job::Covering& c = slope.covering;
  const Bond bond = bond_of(c, pack);
  const bool broken_bond = c.kind != CoveringKind::profiled_tile;  // profiled tiles stand in line
  const Length slope_width = slope.width.value;
  const Length nail_in = pack.length("nail.in");

  const auto row_of = [&](std::int64_t number, Length tail, Length next_tail, Length length, Length nail) {
    const job::Junction* left = wall_at(slope, Hand::left, tail, next_tail);
    const job::Junction* right = wall_at(slope, Hand::right, tail, next_tail);
    const Length left_gap = left != nullptr ? practice::gap_beside(c, *left, pack) : Length{};
    const Length right_gap = right != nullptr ? practice::gap_beside(c, *right, pack) : Length{};
    const bool starts_with_half = (c.first_unit == FirstUnit::unit_and_half) == (number % 2 == 0);
    job::Row row;
    row.slope = slope.name;
    row.course = number;
    row.tail = tail;
    row.length = length;
    row.from = left_gap;
    row.gap = bond.joint;
    row.nail_up = nail;
    row.nail_in = min(nail_in, bond.unit / 4.0);
    row.nailed = !(c.kind == CoveringKind::slate && c.nailing == job::Nailing::hung);
    const Length room = slope_width - left_gap - right_gap;
    row.widths = fill(room, broken_bond && starts_with_half ? bond.and_half : bond.unit, bond);
    return row;
  };

  if (is_double_lap(c.kind)) {
    // The under-course breaks bond with the eaves course, as an odd course would.
    const Length nail =
        max(layout.under_length - pack.length("tile.nail_from_head"), layout.under_length / 2.0);
    job::Row under = row_of(-1, Length{}, layout.courses.front().margin, layout.under_length, nail);
    layout.rows.push_back(std::move(under));
  }
  std::int64_t number = 0;
  for (const job::Course& course : layout.courses) {
    const Length laid = min(course.length, layout.top - course.tail);
    const Length gauge = (course.length - layout.set_out.headlap - dead_head(c, pack)) / 2.0;
    Length nail = nail_up(c, course.length, gauge, layout.set_out.headlap, pack);
    // A unit cut at the top edge has lost its holes: it is holed again below the cut.
    nail = min(nail, max(laid - pack.length("tile.nail_from_head"), laid / 2.0));
    layout.rows.push_back(row_of(number, course.tail, course.tail + course.margin, laid, nail));
    ++number;
  }
  if (broken_bond) check_sidelap(slope, pack, layout);
  const Surroundings around = surroundings_of(survey, index, pack);
  if (!around.blocks.empty() || !around.edges.empty()) {
    const CutLimits limits{bond.narrowest, bond.and_half, pack.length("tile.nail_from_head")};
    std::vector<job::Row> rows;
    for (std::size_t i = 0; i < layout.rows.size(); ++i) {
      const job::Row& row = layout.rows[i];
      const auto k = static_cast<std::size_t>(std::max<std::int64_t>(row.course, 0));
      const Length next_tail = row.tail + layout.courses[k].margin;
      for (job::Row& part : rows_around(row, next_tail, around, limits)) rows.push_back(std::move(part));
    }
    layout.rows = std::move(rows);
  }
  if (broken_bond) {
    say_bond(slope, bond, pack, layout);
    check_narrow_cuts(slope, bond, pack, layout);
  }
}

}  // namespace lapwright::setout
