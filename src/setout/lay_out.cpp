#include <lapwright/job/facts.h>
#include <lapwright/setout/lay_out.h>

#include "battens.h"
#include "bond.h"
#include "gauge.h"
#include "headlap.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/figure.h>

#include <algorithm>
#include <iterator>
#include <string_view>
#include <utility>

namespace lapwright::setout {

namespace {

using job::CoveringKind;
using job::Exposure;
using job::Level;
using practice::Why;

// At or below this pitch no lap holds: the roof is a flat roof, and is planned as one, not here.
bool refuse_as_flat(const job::Slope& slope, const practice::Pack& pack, job::SlopeLayout& layout) {
  const practice::Rule& least = pack.rule("roof.least_pitch");
  const double pitch = slope.pitch.value.in_degrees();
  if (pitch > least.value) return false;
  const double lap = pack.number("lap.rise") / sin_deg(pitch);
  layout.findings.push_back({Level::wrong,
                             "roof.too_flat",
                             {{"pitch", pitch, "deg"}, {"least", least.value, "deg"}, {"lap", lap, "mm"}},
                             "",
                             pitch,
                             least.value,
                             least.source,
                             slope.name});
  return true;
}

void judge_pitch(const job::Slope& slope, const practice::Pack& pack, job::SlopeLayout& layout) {
  const job::Covering& c = slope.covering;
  std::string_view name;
  if (c.kind == CoveringKind::plain_tile) {
    name = c.made == job::Made::hand ? "pitch.plain_tile_hand" : "pitch.plain_tile_machine";
  } else if (c.kind == CoveringKind::slate) {
    name = "pitch.slate";
  } else {
    return;
  }
  const practice::Rule& floor = pack.rule(name);
  const double pitch = slope.pitch.value.in_degrees();
  if (pitch >= floor.value) return;
  // The laps are printed all the same, so that one sees why: on the rafter's pitch and on the unit's flatter
  // one.
  constexpr double kTileLiesFlatterBy = 10.0;
  const double rise = pack.number("lap.rise");
  const double on_tile = pitch > kTileLiesFlatterBy ? rise / sin_deg(pitch - kTileLiesFlatterBy) : 0;
  layout.findings.push_back({Level::wrong,
                             on_tile > 0 ? "pitch.below_floor" : "pitch.below_floor_flat",
                             {{"pitch", pitch, "deg"},
                              {"floor", floor.value, "deg"},
                              {"covering",
                               c.kind == CoveringKind::slate ? "covering.slate"
                               : c.made == job::Made::hand   ? "covering.handmade_plain_tile"
                                                             : "covering.machine_made_plain_tile",
                               "key"},
                              {"lap", rise / sin_deg(pitch), "mm"},
                              {"lap_on_tile", on_tile, "mm"}},
                             "",
                             pitch,
                             floor.value,
                             floor.source,
                             slope.name});
}

void judge_size(const job::Slope& slope, Exposure exposure, const practice::Pack& pack,
                job::SlopeLayout& layout) {
  const Length rafter = slope.rafter.value;
  const practice::Rule& absurd = pack.rule("survey.rafter_doubt");
  if (rafter > Length::mm(absurd.value)) {
    layout.findings.push_back({Level::doubt,
                               "survey.long_rafter",
                               {{"rafter", rafter.in_mm(), "mm"}, {"usual", absurd.value, "mm"}},
                               "",
                               rafter.in_mm(),
                               absurd.value,
                               absurd.source,
                               slope.path + ".rafter"});
  }
  if (slope.covering.kind == CoveringKind::slate) {
    const practice::Rule& reach =
        pack.rule(is_exposed(exposure) ? "headlap.rafter_severe" : "headlap.rafter_moderate");
    if (rafter > Length::mm(reach.value) + tolerance::kNoise) {
      layout.findings.push_back({Level::doubt,
                                 "headlap.rafter_too_long",
                                 {{"rafter", rafter.in_mm(), "mm"}, {"reach", reach.value, "mm"}},
                                 "",
                                 rafter.in_mm(),
                                 reach.value,
                                 reach.source,
                                 slope.name});
    }
  }
  if (slope.covering.sides_swapped) {
    layout.findings.push_back({Level::note,
                               "survey.sides_swapped",
                               {{"length", slope.covering.length.value.in_mm(), "mm"},
                                {"width", slope.covering.width.value.in_mm(), "mm"}},
                               "",
                               std::nullopt,
                               std::nullopt,
                               "survey",
                               slope.path + ".covering"});
  }
}

// The least lap over all courses, from the tails and heads themselves.
Length least_headlap(const job::SlopeLayout& layout, const job::Covering& c, const practice::Pack& pack) {
  const std::size_t over = is_double_lap(c.kind) ? 2 : 1;
  const Length dead = dead_head(c, pack);
  const auto& courses = layout.courses;
  Length least = courses.front().length - courses.front().margin * static_cast<double>(over) - dead;
  for (std::size_t k = 0; k + over < courses.size(); ++k) {
    least = min(least, courses[k].tail + courses[k].length - courses[k + over].tail - dead);
  }
  return least;
}

void judge_headlap(const job::Slope& slope, const practice::Pack& pack, job::SlopeLayout& layout) {
  const job::Covering& c = slope.covering;
  if (!is_double_lap(c.kind)) return;
  const practice::Rule& share = pack.rule("headlap.length_share");
  const Length most = layout.courses.front().length / share.value;
  const Length headlap = layout.set_out.headlap;
  if (headlap > most + tolerance::kNoise) {
    layout.findings.push_back(
        {Level::doubt,
         "headlap.over_share",
         {{"headlap", headlap.in_mm(), "mm"}, {"most", most.in_mm(), "mm"}, {"share", share.value, ""}},
         "",
         headlap.in_mm(),
         most.in_mm(),
         share.source,
         slope.name});
  }
  if (c.kind == CoveringKind::plain_tile && c.length.value < Length::mm(270)) {
    const practice::Rule& least = pack.rule("gauge.plain_tile_least");
    if (layout.set_out.gauge < Length::mm(least.value) - tolerance::kNoise) {
      layout.findings.push_back(
          {Level::doubt,
           "gauge.below_usual",
           {{"gauge", layout.set_out.gauge.in_mm(), "mm"}, {"least", least.value, "mm"}},
           "",
           layout.set_out.gauge.in_mm(),
           least.value,
           least.source,
           slope.name});
    }
  }
}

void sum_up(const job::Slope& slope, const practice::Pack& pack, job::SlopeLayout& layout) {
  const job::Covering& c = slope.covering;
  job::SetOut& out = layout.set_out;
  out.gauge = layout.courses.front().margin;
  out.courses = static_cast<std::int64_t>(layout.courses.size());
  out.headlap = least_headlap(layout, c, pack);
  std::int64_t number = 0;
  for (const job::Course& course : layout.courses) {
    out.tails.push_back(course.tail);
    if (out.lengths.empty() || out.lengths.back() != course.length) {
      out.lengths.push_back(course.length);
      out.length_from_course.push_back(number);
    }
    ++number;
  }
  if (c.sets.empty()) {
    const bool head_nailed = dead_head(c, pack) > Length{};
    Why why("headlap", is_double_lap(c.kind) ? (head_nailed ? "L - 2 * G - N" : "L - 2 * G") : "L - G", "mm");
    why.survey("L", c.length.value).term("G", out.gauge.in_mm(), "mm", "figure gauge");
    if (head_nailed) why.rule("N", pack.rule("slate.head_nail"));
    out.figures.push_back(why.gives(out.headlap));
  }
  const Length last = layout.top - layout.courses.back().tail;
  out.figures.push_back(Why("last_course", "R - s", "mm")
                            .survey("R", slope.rafter.value)
                            .set_out("s", layout.courses.back().tail)
                            .gives(last));
}

}  // namespace

Result<job::SlopeLayout> lay_out(const job::Survey& survey, std::size_t index, const practice::Pack& pack) {
  const job::Slope& slope = survey.slopes[index];
  const Exposure exposure = survey.exposure;
  job::SlopeLayout layout;
  layout.set_out.slope = slope.name;
  layout.top = slope.rafter.value;
  judge_size(slope, exposure, pack, layout);
  if (refuse_as_flat(slope, pack, layout)) return layout;
  judge_pitch(slope, pack, layout);
  Headlap headlap = choose_headlap(slope, exposure, pack);
  layout.set_out.headlaps = std::move(headlap.alternatives);
  std::move(headlap.findings.begin(), headlap.findings.end(), std::back_inserter(layout.findings));
  if (!headlap.least) {
    if (!is_double_lap(slope.covering.kind)) {
      return failed(Fault{FaultCode::missing_key, slope.path + ".covering", slope.spot,
                          "neither max_gauge nor headlap", "max_gauge or headlap, from the tile's maker",
                          "add \"max_gauge\": the largest batten gauge that the maker prints"});
    }
    return layout;  // no table permits it: the findings say so, and there is nothing to lay
  }
  layout.set_out.figures.push_back(headlap.figure);
  if (auto filled = fill_courses(slope, *headlap.least, pack, layout); !filled) {
    return failed(std::move(filled.error()));
  }
  const job::Course& eaves = layout.courses.front();
  layout.under_length = is_double_lap(slope.covering.kind) ? eaves.length - eaves.margin : Length{};
  sum_up(slope, pack, layout);
  judge_headlap(slope, pack, layout);
  mark_battens(slope, pack, layout);
  lay_units(survey, index, pack, layout);
  return layout;
}

}  // namespace lapwright::setout
