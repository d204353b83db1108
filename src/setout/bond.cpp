#include "bond.h"

#include "battens.h"
#include "clearing.h"
#include "fill.h"
#include "gauge.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/job/facts.h>
#include <lapwright/job/layout.h>

#include <algorithm>
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace lapwright::setout {

namespace {

using job::CoveringKind;
using job::FirstUnit;
using job::Hand;
using job::Level;

struct Narrow {
  std::optional<Length> cut;    // the narrowest unit of all rows, but for those that a single unit fills
  std::optional<Length> strip;  // the narrowest of those, between faces, where narrower than allowed
  Length tail;                  // of that one
};

using Rows = std::span<const job::Row>;

std::int64_t count_of(const job::Row& row) {
  std::int64_t total = 0;
  for (const auto& run : row.widths) total += run.count;
  return total;
}

// Perps of a course, from the slope's left end: the middle of each open joint. Where a face parts the course
// there is none.
std::vector<Length> perps(Rows course) {
  std::vector<Length> out;
  for (const job::Row& row : course) {
    Length at = row.from;
    const std::int64_t total = count_of(row);
    std::int64_t done = 0;
    for (const auto& run : row.widths) {
      for (std::int64_t i = 0; i < run.count; ++i) {
        at += run.width;
        ++done;
        if (done < total) out.push_back(at + row.gap / 2.0);
        at += row.gap;
      }
    }
  }
  // Rows in front of a stack and behind it lie over each other.
  std::sort(out.begin(), out.end());
  return out;
}

// The least distance between a perp of one course and one of the other; empty when either has none.
std::optional<Length> least_sidelap(Rows a, Rows b) {
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

bool same_units(Rows a, Rows b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const job::Row& x, const job::Row& y) { return same_units(x, y); });
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
void check_narrow_cuts(const job::Slope& slope, const Bond& bond, const Narrow& narrow,
                       const practice::Pack& pack, job::SlopeLayout& layout) {
  if (slope.covering.kind != CoveringKind::slate) return;
  const Length least = min(narrow.cut.value_or(bond.unit), bond.unit);
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
  const auto courses = static_cast<std::int64_t>(layout.courses.size());
  std::vector<Rows> rows;
  for (std::int64_t k = 0; k < courses; ++k) rows.push_back(job::rows_of_course(layout.rows, k));
  for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
    // Courses repeat in pairs: looking at the first pair of each kind is looking at all.
    if (i >= 2 && same_units(rows[i], rows[i - 2]) && same_units(rows[i + 1], rows[i - 1])) continue;
    const auto lap = least_sidelap(rows[i], rows[i + 1]);
    if (lap && (!least || *lap < *least)) {
      least = lap;
      where = static_cast<std::int64_t>(i);
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

// What is left between two faces, or a face and the slope's edge, may be too narrow for any unit.
void check_narrow_strips(const job::Slope& slope, const Bond& bond, const Narrow& narrow,
                         const practice::Pack& pack, job::SlopeLayout& layout) {
  if (!narrow.strip) return;
  const practice::Rule& rule =
      pack.rule(slope.covering.kind == CoveringKind::slate ? "bond.narrowest_slate" : "bond.narrowest_tile");
  layout.findings.push_back({Level::doubt,
                             "bond.narrow_strip",
                             {{"width", narrow.strip->in_mm(), "mm"},
                              {"narrowest", bond.narrowest.in_mm(), "mm"},
                              {"from", narrow.tail.in_mm(), "mm"}},
                             "",
                             narrow.strip->in_mm(),
                             bond.narrowest.in_mm(),
                             rule.source,
                             slope.name});
}

// A course as it would be on a slope with nothing on it.
struct Whole {
  std::int64_t number = 0;
  Length nail;   // from its tail
  Length first;  // width of its first unit
};

class Layer {
 public:
  Layer(const job::Slope& slope, const practice::Pack& pack)
      : slope_(slope),
        bond_(bond_of(slope.covering, pack)),
        nail_in_(pack.length("nail.in")),
        nail_from_head_(pack.length("tile.nail_from_head")) {}

  const Bond& bond() const { return bond_; }
  const Narrow& narrow() const { return narrow_; }

  job::Row row_in(const Clearing& clearing, const Strip& strip, const Whole& whole) {
    const job::Covering& c = slope_.covering;
    job::Row row;
    row.slope = slope_.name;
    row.course = whole.number;
    row.tail = clearing.tail;
    const bool uncut = clearing.tail == strip.tail && clearing.head == strip.head();
    row.length = uncut ? strip.length : clearing.head - clearing.tail;
    row.gap = bond_.joint;
    row.nail_up = nail_in_row(row, strip, whole);
    row.nail_in = min(nail_in_, bond_.unit / 4.0);
    row.nailed = !(c.kind == CoveringKind::slate && c.nailing == job::Nailing::hung);
    if (clearing.left.own) {
      row.from = clearing.from;
      row.widths = fill(clearing.to - row.from, whole.first, bond_, clearing.right.notch);
    } else {
      // The joints stand where they would without whatever parts the course.
      Filled filled = fill_between(clearing.from, clearing.to, joints_of(whole), bond_,
                                   {clearing.left.notch, clearing.right.notch});
      row.from = filled.from;
      row.widths = std::move(filled.widths);
    }
    rake(clearing, row);
    leave_to_the_other_part(clearing, joints_of(whole), row);
    note_narrow(clearing, row);
    return row;
  }

  // Where the course's joints are counted from; square: that is where its first unit begins.
  void count_from(Length own_edge, bool square) {
    own_edge_ = own_edge;
    square_ = square;
  }

 private:
  Joints joints_of(const Whole& whole) const {
    return {own_edge_ + whole.first + bond_.joint / 2.0, !square_};
  }

  // A unit cut at its head has lost its holes, and is holed again below the cut; one that begins above the
  // course's tail keeps them where they are, unless they would be cut off.
  Length nail_in_row(const job::Row& row, const Strip& strip, const Whole& whole) const {
    const Length below_head = max(row.length - nail_from_head_, row.length / 2.0);
    const Length at = whole.nail - (row.tail - strip.tail);
    const bool lost = row.tail > strip.tail && at < nail_from_head_;
    return lost ? below_head : min(at, below_head);
  }

  void rake(const Clearing& clearing, job::Row& row) const {
    const auto askew = [](const End& end) { return abs(end.at_tail - end.at_head) > tolerance::kGrid; };
    if (askew(clearing.left)) row.left_rake = job::Row::Rake{clearing.left.at_tail, clearing.left.at_head};
    if (askew(clearing.right))
      row.right_rake = job::Row::Rake{clearing.right.at_tail, clearing.right.at_head};
    if (!row.nailed || (!row.left_rake && !row.right_rake)) return;
    // Nails that the cut takes away.
    const double up = row.nail_up / row.length;
    const auto line = [&](const job::Row::Rake& r) { return r.at_tail + (r.at_head - r.at_tail) * up; };
    const Length low = row.left_rake ? line(*row.left_rake) : Length{} - kFarAway;
    const Length high = row.right_rake ? line(*row.right_rake) : kFarAway;
    Length at = row.from;
    std::int64_t number = 0;
    for (const job::UnitRun& run : row.widths) {
      const Length in = min(row.nail_in, run.width / 4.0);
      for (std::int64_t i = 0; i < run.count; ++i, ++number, at += run.width + row.gap) {
        if (at + in < low || at + in > high) row.nails_left_out.push_back({number, Hand::left});
        const Length far = at + run.width - in;
        if (far < low || far > high) row.nails_left_out.push_back({number, Hand::right});
      }
    }
  }

  // A unit that goes on past an end has its nails where it has its sides.
  void leave_to_the_other_part(const Clearing& clearing, const Joints& joints, job::Row& row) const {
    if (!row.nailed) return;
    const auto leave_out = [&](std::int64_t unit, Hand side) {
      for (const auto& out : row.nails_left_out) {
        if (out.unit == unit && out.side == side) return;
      }
      row.nails_left_out.push_back({unit, side});
    };
    const auto goes_on = [&](const End& end) {
      return end.notch &&
             (cuts_a_unit(end.at_tail, joints, bond_) || cuts_a_unit(end.at_head, joints, bond_));
    };
    if (goes_on(clearing.left)) leave_out(0, Hand::left);
    if (goes_on(clearing.right)) leave_out(count_of(row) - 1, Hand::right);
  }

  void note_narrow(const Clearing& clearing, const job::Row& row) {
    if (row.course < 0 || row.left_rake || row.right_rake) return;
    const bool parted = !(clearing.left.own && clearing.right.own);
    const std::int64_t count = count_of(row);
    // Parts of units that go on are as narrow as they come.
    std::int64_t number = 0;
    for (const job::UnitRun& run : row.widths) {
      const bool counts = run.count > 1 || !((clearing.left.notch && number == 0) ||
                                             (clearing.right.notch && number == count - 1));
      if (counts && (count > 1 || !parted)) narrow_.cut = min(narrow_.cut.value_or(run.width), run.width);
      if (counts && count == 1 && parted && run.width < bond_.narrowest - tolerance::kNoise &&
          (!narrow_.strip || run.width < *narrow_.strip)) {
        narrow_.strip = run.width;
        narrow_.tail = row.tail;
      }
      number += run.count;
    }
  }

  const job::Slope& slope_;
  Bond bond_;
  Length nail_in_;
  Length nail_from_head_;
  Length own_edge_;
  bool square_ = true;
  Narrow narrow_;
};

}  // namespace

void lay_units(const job::Slope& slope, const Obstacles& obstacles, const practice::Pack& pack,
               job::SlopeLayout& layout) {
  const job::Covering& c = slope.covering;
  const bool broken_bond = c.kind != CoveringKind::profiled_tile;  // profiled tiles stand in line
  Ground ground(slope, obstacles, pack);
  Layer layer(slope, pack);
  const Bond& bond = layer.bond();

  const auto lay = [&](std::int64_t number, const Strip& strip, Length nail) {
    const bool starts_with_half = (c.first_unit == FirstUnit::unit_and_half) == (number % 2 == 0);
    const Whole whole{number, nail, broken_bond && starts_with_half ? bond.and_half : bond.unit};
    const auto clearings = ground.clearings(strip);
    layer.count_from(ground.own_edge(strip), !obstacles.joins[0]);
    for (const Clearing& clearing : clearings) layout.rows.push_back(layer.row_in(clearing, strip, whole));
  };

  if (is_double_lap(c.kind)) {
    // The under-course breaks bond with the eaves course, as an odd course would. Units that begin above its
    // tail serve under the eaves course as long as that is exposed there.
    const Length nail =
        max(layout.under_length - pack.length("tile.nail_from_head"), layout.under_length / 2.0);
    const Length margin = layout.courses.front().margin;
    lay(-1, {Length{}, layout.under_length, margin, margin, bond.joint}, nail);
  }
  for (std::size_t k = 0; k < layout.courses.size(); ++k) {
    const job::Course& course = layout.courses[k];
    const Length laid = min(course.length, layout.top - course.tail);
    const Length gauge = (course.length - layout.set_out.headlap - dead_head(c, pack)) / 2.0;
    const Length nail = nail_up(c, course.length, gauge, layout.set_out.headlap, pack);
    const Length exposed = course.tail + course.margin;
    const bool covers_another = is_double_lap(c.kind) && k + 1 < layout.courses.size();
    const Length supported = covers_another ? exposed + layout.courses[k + 1].margin : exposed;
    lay(static_cast<std::int64_t>(k), {course.tail, laid, exposed, supported, bond.joint}, nail);
  }
  if (broken_bond) {
    say_bond(slope, bond, pack, layout);
    check_narrow_cuts(slope, bond, layer.narrow(), pack, layout);
    check_narrow_strips(slope, bond, layer.narrow(), pack, layout);
    check_sidelap(slope, pack, layout);
  }
}

}  // namespace lapwright::setout
