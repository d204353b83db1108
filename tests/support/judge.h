// What must hold of every plan, judged from the survey and the placed shapes by arithmetic that the planner
// does not share.
//
// Every function returns the first complaint, or nothing.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <string>

namespace lapwright::sample {

struct Judged {
  const job::Survey& survey;
  const practice::Pack& pack;
  const job::Plan& plan;
};

// Gauges within their limits, headlaps never under, tails that rise from nought, margins that fill the
// rafter.
std::string courses_complaint(const Judged& job);
// Rows fill the slope with gaps of at most a joint; no unit cut narrower than allowed unless the slope itself
// is.
std::string rows_complaint(const Judged& job);
// Every net is sound; folded, every panel lies on the roof or the wall (to 0.1 mm) or square to it; area and
// mass.
std::string nets_complaint(const Judged& job);
// One soaker a course beside the wall; tails hidden, laps kept, legs and upstands long enough, nothing past
// the top edge.
std::string soakers_complaint(const Judged& job);
// Steps in the measured joints, on or above the water line; pieces within their limit; runs less laps make
// the wall's run.
std::string steps_complaint(const Judged& job);
std::string covers_complaint(const Judged& job);
// No nail through a soaker under it, and none left out that would have cleared all of them by more than a
// hand's cut.
std::string nails_complaint(const Judged& job);
// Identical pieces share a mark and others do not; counts are those of the placements; no text has a hole.
std::string marks_complaint(const Judged& job);

// `mirrored` is the plan of the same survey with every wall on the other side.
std::string mirror_complaint(const Judged& job, const job::Plan& mirrored);

// A survey was refused: empty when the fault is honest.
std::string refusal_complaint(const job::Survey& survey, const practice::Pack& pack, const Fault& fault);

}  // namespace lapwright::sample
