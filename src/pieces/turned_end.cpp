#include "turned_end.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/figure.h>

namespace lapwright::pieces {

namespace {

using practice::Why;

// Of the room on the wall, between the slope and the plumb corner, what either part of the strip takes.
Angle half_room(const Place& place) {
  return (Angle::degrees(90) + place.slope.pitch.value) / 2.0;
}

bool is_near(job::FootPoint a, job::FootPoint b) {
  return abs(a.u - b.u) <= tolerance::kHandCut && abs(a.s - b.s) <= tolerance::kHandCut;
}

}  // namespace

TurnedEnds turned_ends(const Place& place) {
  TurnedEnds out;
  if (place.face.kind != job::FaceKind::top || place.face.lean != Angle{}) return out;
  for (const job::Junction& junction : place.slope.junctions) {
    for (const job::Face& face : faces_of(place.slope, junction)) {
      if (face.kind != job::FaceKind::side || face.lean != Angle{}) continue;
      if (face.hand == job::Hand::left && is_near(face.to, place.face.from)) out.left = junction.name;
      if (face.hand == job::Hand::right && is_near(face.to, place.face.to)) out.right = junction.name;
    }
  }
  if (!out.any()) return out;
  out.up = place.pack.length("apron.upstand");
  out.aside = out.up / tan(half_room(place));
  out.seam = out.up / sin(half_room(place));
  out.welded = place.junction.corners == job::Corners::welded;
  return out;
}

std::vector<job::Figure> turned_end_figures(const Place& place, const TurnedEnds& ends) {
  std::vector<job::Figure> out;
  out.push_back(Why("turned_end", "up", "mm").rule("up", place.pack.rule("apron.upstand")).gives(ends.up));
  if (ends.welded) {
    out.push_back(Why("seam", "up / sin((90 + pitch) / 2)", "mm")
                      .rule("up", place.pack.rule("apron.upstand"))
                      .survey("pitch", place.slope.pitch.value)
                      .gives(ends.seam));
  } else {
    out.push_back(Why("gathered", "90 - pitch", "deg")
                      .survey("pitch", place.slope.pitch.value)
                      .gives(90.0 - place.slope.pitch.value.in_degrees()));
  }
  return out;
}

void say_turned_ends(const Place& place, const TurnedEnds& ends, job::JunctionPlan& plan) {
  for (const std::string& other : {ends.left, ends.right}) {
    if (other.empty()) continue;
    plan.findings.push_back({job::Level::note,
                             "apron.meets_a_wall",
                             {{"other", other, ""}, {"up", ends.up.in_mm(), "mm"}},
                             "",
                             std::nullopt,
                             std::nullopt,
                             "common practice, no source",
                             place.where()});
  }
}

job::WorkStep turn_end_step(const Place& place, const TurnedEnds& ends, bool right) {
  job::WorkStep step;
  step.slope = place.slope.name;
  step.junction = place.junction.name;
  step.step = ends.welded ? "work.apron_end_welded" : "work.apron_end_bossed";
  step.params = {{"other", right ? ends.right : ends.left, ""},
                 {"side", right ? "side.right_end" : "side.left_end", "key"},
                 {"up", ends.up.in_mm(), "mm"}};
  return step;
}

}  // namespace lapwright::pieces
