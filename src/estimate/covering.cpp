#include "parts.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/estimate/estimate.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/defaults.h>

#include <cmath>
#include <vector>

namespace lapwright::estimate {

namespace {

using practice::Why;

// Units of one length. `cut` are made from a whole one, `cut_wide` from a unit and a half.
struct Counts {
  Length length;
  std::int64_t whole = 0;
  std::int64_t cut = 0;
  std::int64_t wide = 0;
  std::int64_t cut_wide = 0;
  std::int64_t low = 0;       // eaves and top tiles
  std::int64_t low_wide = 0;  // the same, wider than a unit: cut from a unit and a half
};

constexpr Length kSame = tolerance::kOnPlane;  // two sizes of unit nearer than this are one size

Length unit_length(const job::SetOut& set_out, std::int64_t course) {
  Length out = set_out.lengths.empty() ? Length{} : set_out.lengths.front();
  for (std::size_t i = 0; i < set_out.lengths.size() && i < set_out.length_from_course.size(); ++i) {
    if (set_out.length_from_course[i] <= course) out = set_out.lengths[i];
  }
  return out;
}

Length end_of(const job::Row& row) {
  Length end = row.from;
  std::int64_t n = 0;
  for (const job::UnitRun& run : row.widths) {
    end += run.width * static_cast<double>(run.count);
    n += run.count;
  }
  return n > 1 ? end + row.gap * static_cast<double>(n - 1) : end;
}

void count_run(const job::UnitRun& run, std::int64_t n, const job::Row& row, const job::Covering& covering,
               Length eaves_length, Counts& into) {
  const Length width = covering.width.value;
  const bool wider = run.width > width + kSame;
  const bool low = covering.kind == job::CoveringKind::plain_tile && row.length <= eaves_length + kSame;
  if (low) {
    (wider ? into.low_wide : into.low) += n;
    return;
  }
  const bool full_length = row.length >= into.length - kSame;
  if (wider) {
    (full_length && run.width >= width * 1.5 - kSame ? into.wide : into.cut_wide) += n;
  } else {
    (full_length && run.width >= width - kSame ? into.whole : into.cut) += n;
  }
}

std::vector<Counts> count_units(const Sources& sources, const job::Slope& slope, const job::SetOut& set_out) {
  std::vector<Counts> out;
  const Length eaves_length = sources.pack.length("tile.eaves_length");
  const job::Row* before = nullptr;
  for (const job::Row& row : sources.plan.rows) {
    if (row.slope != set_out.slope) continue;
    const Length length = unit_length(set_out, row.course);
    if (out.empty() || abs(out.back().length - length) > kSame) {
      Counts next;
      next.length = length;
      out.push_back(next);
    }
    // Two rows of a course that meet without a joint share the unit that is cut round the corner.
    std::int64_t shared = before != nullptr && before->course == row.course && row.gap > kSame &&
                                  abs(row.from - end_of(*before)) < row.gap / 2.0
                              ? 1
                              : 0;
    for (const job::UnitRun& run : row.widths) {
      count_run(run, run.count - shared, row, slope.covering, eaves_length, out.back());
      shared = 0;
    }
    before = &row;
  }
  return out;
}

double number(std::int64_t n) {
  return static_cast<double>(n);
}

// A catalogue key.
std::string unit_word(job::CoveringKind kind) {
  switch (kind) {
    case job::CoveringKind::plain_tile:
      return "unit.plain_tiles";
    case job::CoveringKind::slate:
      return "unit.slates";
    case job::CoveringKind::profiled_tile:
      return "unit.profiled_tiles";
    case job::CoveringKind::flat_tile:
      return "unit.flat_tiles";
  }
  return "";
}

void add_counts(const Sources& sources, const job::Slope& slope, const job::SetOut& set_out, const Counts& c,
                Lines& lines) {
  const practice::Rule& waste = sources.pack.rule("waste.units");
  const Length width = slope.covering.width.value;
  const double per_m2 =
      units_per_m2(width, practice::open_joint(slope.covering, sources.pack), set_out.gauge);
  const auto with_waste = [&](std::int64_t n) { return number(whole_up(number(n) * (1 + waste.value))); };
  const auto units = [&](std::string_view item, std::int64_t whole, std::int64_t cut, Length length,
                         Length wide) {
    lines.add("covering", slope.name,
              Why(item, "ceil((n + c) * (1 + w))", "")
                  .term("n", number(whole), "", kFromRows)
                  .term("c", number(cut), "", kFromRows)
                  .rule("w", waste)
                  .gives(with_waste(whole + cut)),
              {{"kind", unit_word(slope.covering.kind), "key"},
               {"length", length.in_mm(), "mm"},
               {"width", wide.in_mm(), "mm"},
               {"whole", number(whole), ""},
               {"cut", number(cut), ""},
               {"per_m2", std::round(per_m2 * 10) / 10, ""}});
  };
  units("covering.unit", c.whole, c.cut, c.length, width);
  units("covering.unit_and_half", c.wide, c.cut_wide + c.low_wide, c.length,
        width * sources.pack.number("bond.unit_and_half"));
  if (c.low > 0) {
    lines.add("covering", slope.name,
              Why("covering.eaves_unit", "ceil(n * (1 + w))", "")
                  .term("n", number(c.low), "", kFromRows)
                  .rule("w", waste)
                  .gives(with_waste(c.low)),
              {{"kind", unit_word(slope.covering.kind), "key"},
               {"length", sources.pack.length("tile.eaves_length").in_mm(), "mm"},
               {"width", width.in_mm(), "mm"},
               {"whole", number(c.low), ""}});
  }
}

// Two to a unit, but those left out so that no lead is pierced.
std::int64_t nails_of(const Sources& sources, const job::Slope& slope) {
  const auto every = static_cast<std::int64_t>(
      slope.covering.kind == job::CoveringKind::slate ? 1 : sources.pack.number("nail.tile_every"));
  std::int64_t n = 0;
  for (const job::Row& row : sources.plan.rows) {
    if (row.slope != slope.name || !row.nailed) continue;
    if (row.course >= 0 && every > 1 && row.course % every != 0) continue;
    for (const job::UnitRun& run : row.widths) n += 2 * run.count;
    n -= static_cast<std::int64_t>(row.nails_left_out.size());
  }
  return n;
}

}  // namespace

void add_covering(const Sources& sources, const job::SetOut& set_out, Lines& lines) {
  const job::Slope* slope = slope_named(sources.survey, set_out.slope);
  if (slope == nullptr) return;
  for (const Counts& counts : count_units(sources, *slope, set_out)) {
    add_counts(sources, *slope, set_out, counts, lines);
  }
  const practice::Pack& pack = sources.pack;
  const auto n = number(nails_of(sources, *slope));
  lines.add("fixings", slope->name,
            nails("fixings.unit_nails", n, kFromRows,
                  {pack.rule("nail.unit_diameter"), pack.rule("nail.unit_length"),
                   pack.rule("nail.copper_density"), pack.rule("waste.nails")}),
            {{"count", n, ""},
             {"length", pack.number("nail.unit_length"), "mm"},
             {"diameter", pack.number("nail.unit_diameter"), "mm"}});
}

}  // namespace lapwright::estimate
