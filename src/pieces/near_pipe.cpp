#include "near_pipe.h"

#include <lapwright/base/tolerance.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace lapwright::pieces {

namespace {

// Whether the foot line enters the box (its edges do not count: lead may end at a wall). Liang and Barsky's
// clipping of a line against a box.
bool enters(const job::Face& face, const BaseBox& base) {
  const double du = (face.to.u - face.from.u).in_mm();
  const double ds = (face.to.s - face.from.s).in_mm();
  double first = 0;
  double last = 1;
  const auto clip = [&](double along, double room) {
    // The part of the line where along · t <= room.
    if (along == 0) return room > tolerance::kGrid.in_mm();
    const double t = room / along;
    (along > 0 ? last : first) = along > 0 ? std::min(last, t) : std::max(first, t);
    return true;
  };
  return clip(-du, (face.from.u - base.left).in_mm()) && clip(du, (base.right - face.from.u).in_mm()) &&
         clip(-ds, (face.from.s - base.tail).in_mm()) && clip(ds, (base.head - face.from.s).in_mm()) &&
         first < last;
}

bool pipe_enters(const job::Junction& pipe, const BaseBox& base) {
  const Length half = *pipe.diameter / 2.0;
  return *pipe.at + half > base.left && *pipe.at - half < base.right && *pipe.up + half > base.tail &&
         *pipe.up - half < base.head;
}

void add(const Place& place, std::string_view rule, job::Params params, job::JunctionPlan& plan) {
  plan.findings.push_back({job::Level::doubt, std::string(rule), std::move(params), "", std::nullopt,
                           std::nullopt, "geometry", place.where()});
}

}  // namespace

void say_what_is_near(const Place& place, const BaseBox& base, job::JunctionPlan& plan) {
  std::vector<job::Junction> others = place.slope.junctions;
  for (job::Junction& part : parts_from_across(place.survey, place.slope)) others.push_back(std::move(part));
  for (const job::Junction& other : others) {
    if (other.name == place.junction.name) continue;
    bool near = false;
    for (const job::Face& face : faces_of(place.slope, other)) {
      near = near || (face.kind == job::FaceKind::round ? pipe_enters(other, base) : enters(face, base));
    }
    if (near) add(place, "pipe.near_junction", {{"other", other.name, ""}}, plan);
  }
  const auto past = [&](Length over, std::string_view edge) {
    if (over <= tolerance::kGrid) return;
    add(place, "pipe.past_edge", {{"edge", std::string(edge), "key"}, {"over", over.in_mm(), "mm"}}, plan);
  };
  past(-base.left, "edge.left");
  past(base.right - place.slope.width.value, "edge.right");
  past(-base.tail, "edge.eaves");
  past(base.head - place.layout.top, "edge.top");
}

}  // namespace lapwright::pieces
