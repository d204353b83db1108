#include "steps.h"

#include "on_face.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/geom/grid.h>
#include <lapwright/practice/defaults.h>

#include <string>

namespace lapwright::pieces {

namespace {

// Heights on the µm grid, so that equal courses give equal steps to the last bit.
Length on_grid(Length length) {
  return geom::to_length(geom::to_grid(length));
}

Fault joints_fault(const job::Junction& junction, std::string read, std::string accepted, std::string mend) {
  return Fault{FaultCode::no_geometry,    junction.path + ".wall.joints",
               junction.wall.joints_spot, std::move(read),
               std::move(accepted),       std::move(mend)};
}

}  // namespace

Result<std::vector<Length>> joint_heights(const Place& place) {
  const job::Junction& junction = place.junction;
  const practice::Pack& pack = place.pack;
  const Angle pitch = place.frame.rise_in_face;
  const Length run = place.frame.length;
  const Length water_line = up_the_face(place, pack.length("wall.water_line"));
  const auto up_face = [&](Length upright) { return upright / place.frame.steepness; };
  const Length at_foot = water_line / cos(pitch);
  const Length at_head = run * sin(pitch) + at_foot;
  std::vector<Length> heights;
  if (!junction.wall.joints.empty()) {
    for (const auto& joint : junction.wall.joints) heights.push_back(on_grid(up_face(joint.value)));
    if (heights.back() <= at_foot) {
      return failed(joints_fault(junction, "a highest joint at " + trimmed(heights.back().in_mm(), 1) + " mm",
                                 "joints that rise past the water line, " + trimmed(at_foot.in_mm(), 1) +
                                     " mm above the roof at the wall's lower end",
                                 "measure upright from the roof's surface at the lower end of this wall"));
    }
    if (heights.back() < at_head - tolerance::kGrid) {
      if (!junction.wall.course) {
        return failed(
            joints_fault(junction, "a highest joint at " + trimmed(heights.back().in_mm(), 1) + " mm",
                         "joints up to at least " + trimmed(at_head.in_mm(), 1) +
                             " mm, where the water line leaves this wall",
                         "measure the joints further up, or give \"course\" to go on from the last"));
      }
      const Length course = up_face(junction.wall.course->value);
      while (heights.back() < at_head) heights.push_back(on_grid(heights.back() + course));
    }
    return heights;
  }
  const Length course = up_face(practice::brick_course(junction.wall, pack).value);
  const Length first = junction.wall.first_joint ? up_face(junction.wall.first_joint->value) : course;
  for (std::int64_t i = 0;; ++i) {
    heights.push_back(on_grid(first + course * static_cast<double>(i)));
    if (heights.back() >= at_head) return heights;
  }
}

Steps fall_of_steps(const std::vector<Length>& heights, const Place& place) {
  const practice::Pack& pack = place.pack;
  const Length run = place.frame.length;
  const Angle pitch = place.frame.rise_in_face;
  Steps out;
  out.run = run;
  out.pitch = pitch;
  out.water_line = up_the_face(place, pack.length("wall.water_line"));
  out.turn_in = pack.length("step.turn_in");
  const Length least_run = pack.length("step.least_run");
  const Length at_foot = out.water_line / cos(pitch);
  const Length foot = out.water_line * tan(pitch);
  Length begin = foot;     // a of the riser's foot
  Length below = at_foot;  // upright height of the water line there
  for (const Length z : heights) {
    const Length end = foot + (z - at_foot) / sin(pitch);
    if (end <= foot + tolerance::kGrid) {
      ++out.joints_skipped;
      continue;
    }
    Step step;
    step.joint = z;
    step.height = z - below;
    step.from = begin;
    step.to = min(end, run + foot);
    // Where the part step at the foot (or the rest at the head) is too short to fold, its edge stays on the
    // water line, straight.
    step.turned_in = (step.to - step.from) * cos(pitch) >= least_run;
    if (step.turned_in) out.largest_height = max(out.largest_height, step.height);
    out.steps.push_back(step);
    begin = end;
    below = z;
    if (end >= run + foot - tolerance::kGrid) break;
  }
  if (!out.steps.empty()) out.steps.back().to = run + foot;
  return out;
}

Length boundary(const Steps& steps, std::size_t i) {
  return i == 0 ? steps.water_line * tan(steps.pitch) : steps.steps[i - 1].to;
}

WallPoint upper_end_at(const Steps& steps, Length height) {
  const Length x = steps.run * cos(steps.pitch);
  return {x * cos(steps.pitch) + height * sin(steps.pitch), height * cos(steps.pitch) - x * sin(steps.pitch)};
}

Reach reach_of(const Steps& steps, std::size_t first, std::size_t last) {
  const Length low = first == 0 ? Length{} : boundary(steps, first);
  Length high = boundary(steps, last);
  const Step& top = steps.steps[last - 1];
  if (!top.turned_in) {
    // The edge below it keeps its whole turn-in, which leans past what is left of the water line.
    const bool leans = last - first >= 2 && steps.steps[last - 2].turned_in;
    if (leans) high = max(high, steps.steps[last - 2].to + steps.turn_in * sin(steps.pitch));
  } else if (last == steps.steps.size()) {
    high = upper_end_at(steps, top.joint + steps.turn_in).a;
  }
  return {low, high};
}

Length foot_of(const Steps& steps, std::size_t first) {
  const Length low = first == 0 ? Length{} : boundary(steps, first);
  return low <= steps.run ? Length{} : (low - steps.run) / tan(steps.pitch);
}

}  // namespace lapwright::pieces
