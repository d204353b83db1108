// What a stack's place on its slope asks for, whatever lead goes round it.
#pragma once

#include "place.h"

#include <vector>

namespace lapwright::pieces {

// Adds findings: room at the slope's sides, the tray in the masonry. REQUIRES a stack.
void judge_stack_place(const job::Slope& slope, const job::Junction& stack, const practice::Pack& pack,
                       std::vector<job::Finding>& findings);

// Where the front falls in a course: what its units are cut to, and what the apron's leg then lies on.
// REQUIRES a stack's front.
void say_front(const Place& place, Length leg, std::vector<job::Finding>& findings);

}  // namespace lapwright::pieces
