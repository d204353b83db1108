// Which detail a face may have: right, doubtful or wrong, each with its reason.
#pragma once

#include "place.h"

#include <optional>
#include <vector>

namespace lapwright::pieces {

struct DetailChoice {
  std::optional<job::Detail> plan;     // the detail to plan; empty when nothing can be planned
  bool wrong = false;                  // it is wrong here, and planned only to show why
  std::vector<job::Choice> choices;    // every detail, the right one first, then doubts, then what is wrong
  std::vector<job::Finding> findings;  // about the one that is taken
};

// What the person insists on is followed when it is right or doubtful (the doubt is said); a wrong one is
// refused with its reason and the right one is offered; where lead can be made so all the same it is planned
// as far as it helps to see why. A detail that has no
// place at this kind of face is no order for it: a stack's `detail` speaks of the faces that it fits.
DetailChoice choose_detail(const Place& place);

}  // namespace lapwright::pieces
