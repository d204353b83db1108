#include "joint_above.h"

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/practice/defaults.h>

namespace lapwright::pieces {

std::optional<Length> joint_above(const Place& place, Length least) {
  const job::Wall& wall = place.junction.wall;
  if (wall.kind != job::WallKind::brick) return std::nullopt;
  for (const auto& joint : wall.joints) {
    if (joint.value >= least - tolerance::kNoise) return joint.value;
  }
  // Past the last measured joint the courses go on where the survey gives their height.
  if (!wall.joints.empty() && !wall.course) return std::nullopt;
  if (wall.joints.empty() && !wall.first_joint) return std::nullopt;
  const Length from = wall.joints.empty() ? wall.first_joint->value : wall.joints.back().value;
  const Length course = practice::brick_course(wall, place.pack).value;
  if (from >= least - tolerance::kNoise) return from;
  return from + course * static_cast<double>(whole_up((least - from) / course));
}

}  // namespace lapwright::pieces
