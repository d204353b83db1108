// A side wall to scale, as one faces it from the roof.
#pragma once

#include "wall.h"
#include "words.h"

namespace lapwright::sheets {

struct ElevationView {
  double scale = 0.1;
  Stretch stretch;  // of the slope that is shown
  bool heights_at_steps =
      false;  // each joint's height beside its step; otherwise as one chain at the lower end
  bool marks = true;
};

// In mm of paper, the origin as Wall::at has it.
draw::Drawing elevation(const Sources& sources, const Wall& wall, const ElevationView& view);

}  // namespace lapwright::sheets
