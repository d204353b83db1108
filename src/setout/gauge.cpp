#include "gauge.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/figure.h>

#include <optional>
#include <string>
#include <vector>

namespace lapwright::setout {

namespace {

using job::Level;
using practice::Why;

// Courses of one length of unit.
struct Set {
  Length length;
  std::optional<Length> own_most;  // the largest gauge that the person fixes
  std::int64_t courses = 0;        // of the last set: 0, it fills the rest
};

std::vector<Set> sets_of(const job::Covering& c) {
  if (c.sets.empty()) return {{c.length.value, c.max_gauge, 0}};
  std::vector<Set> sets;
  for (const job::UnitSet& s : c.sets) {
    sets.push_back({s.length, s.max_gauge ? s.max_gauge : c.max_gauge, s.courses.value_or(0)});
  }
  sets.back().courses = 0;
  return sets;
}

// The largest gauge of a set: what the headlap allows, and the person's own greatest.
Length largest_gauge(const job::Covering& c, const Set& set, Length headlap, const practice::Pack& pack) {
  const Length by_lap =
      is_double_lap(c.kind) ? (set.length - headlap - dead_head(c, pack)) / 2.0 : set.length - headlap;
  return set.own_most ? min(by_lap, *set.own_most) : by_lap;
}

job::Figure largest_figure(const job::Covering& c, const Set& set, Length headlap, Length largest,
                           const practice::Pack& pack) {
  const bool head_nailed = is_head_nailed(c);
  std::string formula = "L - H";
  if (is_double_lap(c.kind)) formula = head_nailed ? "(L - H - N) / 2" : "(L - H) / 2";
  if (set.own_most) formula = "min(Gmax, " + formula + ")";
  Why why("largest_gauge", formula, "mm");
  why.survey("L", set.length).term("H", headlap.in_mm(), "mm", "figure least_headlap");
  if (head_nailed) why.rule("N", pack.rule("slate.head_nail"));
  if (set.own_most) why.survey("Gmax", *set.own_most);
  return why.gives(largest);
}

void append_courses(job::SlopeLayout& layout, Length from, Length gauge, std::int64_t count, Length length) {
  for (std::int64_t k = 0; k < count; ++k) {
    layout.courses.push_back({from + gauge * static_cast<double>(k), length, gauge});
  }
}

// A gauge of a few millimetres would make thousands of courses out of one typing error.
constexpr Length kLeastGauge = Length::mm(20);

Fault too_small(const job::Slope& slope, const Set& set, Length headlap) {
  return {FaultCode::no_geometry,
          slope.path + ".covering",
          slope.spot,
          "a unit " + trimmed(set.length.in_mm(), 1) + " long at headlap " + trimmed(headlap.in_mm(), 1),
          "a headlap that leaves a gauge of at least " + trimmed(kLeastGauge.in_mm(), 0) + " mm",
          "check the unit's length and the headlap"};
}

Fault too_many(const job::Slope& slope) {
  return {FaultCode::no_geometry,
          slope.path + ".covering.sets",
          slope.spot,
          "sets that reach past the top edge at " + trimmed(slope.rafter.value.in_mm(), 1) + " mm",
          "sets that leave at least one course for the last",
          "give the lower sets fewer courses, or measure the rafter again"};
}

// The last set shares out what is left above `below`, evenly.
void fill_rest(const job::Slope& slope, const Set& set, Length headlap, Length largest, Length below,
               const practice::Pack& pack, job::SlopeLayout& layout) {
  const Length rafter = slope.rafter.value;
  const Length left = rafter - below;
  const std::int64_t count = whole_up(left / largest);
  const Length gauge = left / static_cast<double>(count);
  append_courses(layout, below, gauge, count, set.length);

  const bool whole = below == Length{};
  const std::string room = whole ? "R" : "(R - below)";
  Why courses("courses", "ceil(" + room + " / Glargest)", "");
  courses.survey("R", rafter).term("Glargest", largest.in_mm(), "mm", "figure largest_gauge");
  Why shared("gauge", room + " / n", "mm");
  shared.survey("R", rafter).term("n", static_cast<double>(count), "", "figure courses");
  if (!whole) {
    courses.set_out("below", below);
    shared.set_out("below", below);
  }
  auto& figures = layout.set_out.figures;
  figures.push_back(largest_figure(slope.covering, set, headlap, largest, pack));
  figures.push_back(courses.gives(static_cast<double>(count)));
  figures.push_back(shared.gives(gauge));

  if (gauge >= largest - tolerance::kGrid) return;
  const Length fixed_left = left - largest * static_cast<double>(count - 1);
  layout.findings.push_back({Level::note,
                             "setout.gauge_shrunk",
                             {{"courses", static_cast<double>(count), ""},
                              {"gauge", gauge.in_mm(), "mm"},
                              {"largest", largest.in_mm(), "mm"},
                              {"left", fixed_left.in_mm(), "mm"}},
                             "",
                             gauge.in_mm(),
                             largest.in_mm(),
                             "geometry",
                             slope.name});
}

}  // namespace

Length dead_head(const job::Covering& covering, const practice::Pack& pack) {
  return is_head_nailed(covering) ? pack.length("slate.head_nail") : Length{};
}

Result<void> fill_courses(const job::Slope& slope, Length headlap, const practice::Pack& pack,
                          job::SlopeLayout& layout) {
  const std::vector<Set> sets = sets_of(slope.covering);
  Length at;
  for (const Set& set : sets) {
    const Length largest = largest_gauge(slope.covering, set, headlap, pack);
    if (largest < kLeastGauge) return failed(too_small(slope, set, headlap));
    const Length left = slope.rafter.value - at;
    const bool last = &set == &sets.back();
    const Length takes = largest * static_cast<double>(set.courses);
    if (left <= tolerance::kNoise || (!last && takes >= left)) return failed(too_many(slope));
    if (last) {
      fill_rest(slope, set, headlap, largest, at, pack, layout);
    } else {
      append_courses(layout, at, largest, set.courses, set.length);
      at += takes;
    }
  }
  return {};
}

}  // namespace lapwright::setout
