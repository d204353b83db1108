#include <lapwright/pieces/plan_slope.h>

#include "cheek.h"
#include "detail.h"
#include "detail_choice.h"
#include "nails.h"
#include "order_of_work.h"
#include "place.h"
#include "saddle.h"
#include "skew.h"
#include "stack_place.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/job/join.h>

#include <algorithm>
#include <iterator>
#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

void say_coating(const Place& place, job::JunctionPlan& plan) {
  const practice::Rule& coat = place.pack.rule("lead.coat_over");
  const Length turn_in = place.pack.length("step.turn_in");
  if (turn_in <= Length::mm(coat.value)) return;
  plan.findings.push_back({job::Level::note,
                           "flashing.coat_both_faces",
                           {{"turn_in", turn_in.in_mm(), "mm"}, {"over", coat.value, "mm"}},
                           "",
                           turn_in.in_mm(),
                           coat.value,
                           coat.source,
                           place.where()});
}

// What is wrong is shown, but nobody is told to make or fit it, nor how well it is made.
job::JunctionPlan shown_only(job::JunctionPlan planned, const Place& place) {
  job::JunctionPlan out;
  out.pieces = std::move(planned.pieces);
  for (job::Piece& piece : out.pieces) {
    piece.face = place.face.name;
    piece.wrong = true;
  }
  for (job::Finding& finding : planned.findings) {
    if (finding.rule.starts_with("detail.") || finding.level == job::Level::wrong)
      out.findings.push_back(std::move(finding));
  }
  return out;
}

Result<job::JunctionPlan> plan_face(const Place& place, std::vector<job::Choice>& choices) {
  job::JunctionPlan plan;
  DetailChoice choice = choose_detail(place);
  plan.findings = std::move(choice.findings);
  std::move(choice.choices.begin(), choice.choices.end(), std::back_inserter(choices));
  if (!choice.plan || place.layout.courses.empty()) return plan;
  if (!judge_bearing(place, plan.findings)) return plan;
  const auto plan_detail = [&](const Place& part) { return planner_of(*choice.plan).plan(part, plan); };
  if (const auto runs_out = where_it_runs_out(place)) {
    if (runs_out->open) {
      if (auto done = plan_detail(at_part(place, *runs_out->open)); !done)
        return failed(std::move(done.error()));
    }
    if (runs_out->boxed) plan_boxed_part(at_part(place, *runs_out->boxed), *runs_out, plan);
  } else if (auto done = plan_detail(place); !done) {
    return failed(std::move(done.error()));
  }
  // Of a stack through the ridge each side ends under a saddle, planned with the slope that names the stack.
  const bool named_here = std::any_of(place.slope.junctions.begin(), place.slope.junctions.end(),
                                      [&](const job::Junction& j) { return j.name == place.junction.name; });
  if (place.junction.across && place.face.kind == job::FaceKind::side && named_here) {
    for (const job::Slope& other : place.survey.slopes) {
      if (other.name == *place.junction.across) plan_saddle(place, other, plan);
    }
  }
  if (choice.wrong) return shown_only(std::move(plan), place);
  for (job::Piece& piece : plan.pieces) piece.face = place.face.name;
  say_coating(place, plan);
  return plan;
}

// Two walls cannot stand in the same place.
void find_overlaps(const job::Slope& slope, Faults& faults) {
  const auto end_of = [&](const job::Junction& j) { return j.to.value_or(slope.rafter.value); };
  for (std::size_t i = 0; i < slope.junctions.size(); ++i) {
    for (std::size_t j = i + 1; j < slope.junctions.size(); ++j) {
      const job::Junction& a = slope.junctions[i];
      const job::Junction& b = slope.junctions[j];
      if (a.kind != job::JunctionKind::side || b.kind != job::JunctionKind::side || a.hand != b.hand)
        continue;
      if (a.from >= end_of(b) - tolerance::kGrid || b.from >= end_of(a) - tolerance::kGrid) continue;
      faults.push_back({FaultCode::contradiction, b.path, b.spot,
                        "a wall from " + trimmed(b.from.in_mm(), 1) + " to " + trimmed(end_of(b).in_mm(), 1) +
                            " mm on the " + std::string(name_of(b.hand)) + ", where " + quoted(a.name) +
                            " stands",
                        "walls on one side of a slope that stand one above the other",
                        "give each its own \"from\" and \"to\", or put one on the other hand"});
    }
  }
}

}  // namespace

Result<SlopePlan> plan_slope(const job::Survey& survey, std::span<const job::SlopeLayout> layouts,
                             std::size_t index, const practice::Pack& pack) {
  const job::Slope& slope = survey.slopes[index];
  const job::SlopeLayout& layout = layouts[index];
  SlopePlan plan;
  plan.rows = layout.rows;
  Faults faults;
  find_overlaps(slope, faults);
  std::vector<job::Junction> junctions = slope.junctions;
  for (job::Junction& part : job::parts_from_across(survey, slope)) junctions.push_back(std::move(part));
  std::vector<FaceWork> work;
  for (const job::Junction& junction : junctions) {
    if (junction.kind == job::JunctionKind::stack && job::stands_on_join(survey, index, junction)) {
      plan.findings.push_back({job::Level::wrong,
                               "stack.on_a_join",
                               {},
                               "",
                               std::nullopt,
                               std::nullopt,
                               "common practice, no source",
                               slope.name + " / " + junction.name});
      continue;
    }
    if (junction.kind == job::JunctionKind::stack) {
      judge_stack_place(slope, junction, pack, plan.findings);
    }
    for (const job::Face& face : faces_of(slope, junction)) {
      const Place place{survey, slope, junction, face, frame_of(face, slope.pitch.value), layout, pack};
      auto planned = plan_face(place, plan.choices);
      if (!planned) {
        std::move(planned.error().begin(), planned.error().end(), std::back_inserter(faults));
        continue;
      }
      const std::size_t first_piece = plan.pieces.size();
      std::move(planned->pieces.begin(), planned->pieces.end(), std::back_inserter(plan.pieces));
      std::move(planned->findings.begin(), planned->findings.end(), std::back_inserter(plan.findings));
      work.push_back({&junction, face, std::move(*planned), first_piece});
    }
  }
  if (!faults.empty()) return failed(std::move(faults));
  keep_nails_clear(plan.pieces, plan.rows);
  order_work(slope, layout, work, plan);
  return plan;
}

}  // namespace lapwright::pieces
