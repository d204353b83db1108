#include "detail_choice.h"

#include "detail.h"

#include <lapwright/base/trig.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/defaults.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace lapwright::pieces {

namespace {

using job::CoveringKind;
using job::Detail;
using job::Level;

#define LAPWRIGHT_ENTRY(name, word) Detail::name,
constexpr std::array kDetails{LAPWRIGHT_DETAILS(LAPWRIGHT_ENTRY)};
#undef LAPWRIGHT_ENTRY

// A catalogue key.
std::string_view covering_word(CoveringKind kind) {
  switch (kind) {
    case CoveringKind::plain_tile:
      return "covering.plain_tiles";
    case CoveringKind::slate:
      return "covering.slates";
    case CoveringKind::profiled_tile:
      return "covering.profiled_tiles";
    case CoveringKind::flat_tile:
      return "covering.flat_tiles";
  }
  return "";
}

// A catalogue key.
std::string name_key(Detail detail) {
  return "detail." + std::string(name_of(detail));
}

struct Judged {
  Detail detail;
  Judgement judgement;
};

int order_of(Level level) {
  return level == Level::note ? 0 : level == Level::doubt ? 1 : 2;
}

bool has_several_faces(const job::Junction& junction) {
  return junction.kind == job::JunctionKind::stack || junction.line.size() > 2;
}

// A plain tile lies flatter than its rafter by about this (asin(thickness / gauge) is 7 for 12 mm at
// gauge 100; handmade tiles lie flatter still).
constexpr double kUnitLiesFlatterBy = 10;

// The lap that lead would need down this slope, on a pitch flatter than the rafter's by `less` degrees.
Length lap_at(const Place& place, double less) {
  constexpr double kHardlyAPitch = 1;  // degrees: the number is only to show why a flat roof takes no laps
  const double pitch = std::max(place.slope.pitch.value.in_degrees() - less, kHardlyAPitch);
  return max(place.pack.length("lap.least"), place.pack.length("lap.rise") / sin_deg(pitch));
}

// Lead found lying over a double-lap covering: which courses have to come off, and what goes on instead.
void say_what_to_strip(const Place& place, Detail right, std::vector<job::Finding>& findings) {
  double first = 0;
  double last = 0;
  double number = 0;
  for (const job::Course& course : place.layout.courses) {
    number += 1;
    const bool beside = course.tail < place.face.to.s && place.face.from.s < course.tail + course.margin;
    if (!beside) continue;
    if (first == 0) first = number;
    last = number;
  }
  if (first == 0) return;
  findings.push_back({Level::note,
                      "detail.strip_and_fit",
                      {{"first", first, ""},
                       {"last", last, ""},
                       {"soakers", last - first + 1, ""},
                       {"right", name_key(right), "key"}},
                      "",
                      std::nullopt,
                      std::nullopt,
                      "common practice, no source",
                      place.where()});
}

bool belongs_here(const Judgement& judgement) {
  return judgement.reason != "detail.not_at_this_face" && judgement.reason != "detail.apron_at_side" &&
         judgement.reason != "detail.apron_holds_water";
}

void say_code(const Place& place, std::vector<job::Finding>& findings) {
  const practice::Rule& exposed_code = place.pack.rule("flashing.code_exposed");
  const std::int64_t code = practice::flashing_code(place.junction, place.pack);
  if (!is_exposed(place.survey.exposure) || code >= static_cast<std::int64_t>(exposed_code.value)) return;
  findings.push_back({Level::doubt,
                      "flashing.thin_for_exposure",
                      {{"code", exposed_code.value, ""}},
                      "",
                      static_cast<double>(code),
                      exposed_code.value,
                      exposed_code.source,
                      place.where()});
}

}  // namespace

DetailChoice choose_detail(const Place& place) {
  std::vector<Judged> all;
  for (const Detail detail : kDetails) all.push_back({detail, planner_of(detail).judge(place)});
  std::stable_sort(all.begin(), all.end(), [](const Judged& a, const Judged& b) {
    return order_of(a.judgement.level) < order_of(b.judgement.level);
  });
  const Judged& right = all.front();
  const Judged* taken = &right;
  if (place.junction.detail) {
    for (const Judged& judged : all) {
      if (judged.detail != *place.junction.detail) continue;
      if (!has_several_faces(place.junction) || belongs_here(judged.judgement)) taken = &judged;
    }
  }
  DetailChoice out;
  const Length lap = lap_at(place, 0);
  const Length lap_on_unit = lap_at(place, kUnitLiesFlatterBy);
  const auto params_of = [&](Detail detail) -> job::Params {
    return {{"asked", name_key(detail), "key"},
            {"right", name_key(right.detail), "key"},
            {"covering", std::string(covering_word(place.slope.covering.kind)), "key"},
            {"face", "face." + std::string(name_of(place.face.kind)), "key"},
            {"depth", place.pack.number("chase.depth"), "mm"},
            {"lap", lap.in_mm(), "mm"},
            {"lap_on_unit", lap_on_unit.in_mm(), "mm"},
            {"brick_depth", place.pack.number("chase.brick_depth_most"), "mm"}};
  };
  for (const Judged& judged : all) {
    job::Choice choice;
    choice.slope = place.slope.name;
    choice.junction = place.junction.name;
    choice.face = place.face.name;
    choice.detail = name_of(judged.detail);
    choice.level = judged.judgement.level;
    choice.taken = judged.detail == taken->detail;
    choice.rule = judged.judgement.reason;
    choice.params = params_of(judged.detail);
    choice.source = judged.judgement.source;
    out.choices.push_back(std::move(choice));
  }
  if (taken->judgement.level != Level::note) {
    out.findings.push_back({taken->judgement.level, std::string(taken->judgement.reason),
                            params_of(taken->detail), "", std::nullopt, std::nullopt, taken->judgement.source,
                            place.where()});
  }
  if (taken->judgement.level == Level::wrong) {
    if (taken->judgement.reason == "detail.cover_on_double_lap")
      say_what_to_strip(place, right.detail, out.findings);
    if (taken->judgement.makeable) {
      out.plan = taken->detail;
      out.wrong = true;
    }
    return out;
  }
  say_code(place, out.findings);
  out.plan = taken->detail;
  return out;
}

void not_planned_yet(const Place& place, job::JunctionPlan& plan) {
  plan.findings.push_back({Level::doubt,
                           "detail.not_planned_yet",
                           {{"kind", "face." + std::string(name_of(place.face.kind)), "key"}},
                           "",
                           std::nullopt,
                           std::nullopt,
                           "this version",
                           place.where()});
}

const DetailPlanner& planner_of(Detail detail) {
  switch (detail) {
#define LAPWRIGHT_CASE(name, word) \
  case Detail::name:               \
    return name##_detail();
    LAPWRIGHT_DETAILS(LAPWRIGHT_CASE)
#undef LAPWRIGHT_CASE
  }
  return apron_detail();  // not reached: every enumerator has its file
}

}  // namespace lapwright::pieces
