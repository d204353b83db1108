// What a stack's place on its slope asks for, whatever lead goes round it.
#pragma once

#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <vector>

namespace lapwright::pieces {

// Adds findings: where the front meets the courses, room at the slope's sides, the tray in the masonry.
// REQUIRES a stack.
void judge_stack_place(const job::Slope& slope, const job::Junction& stack, const job::SlopeLayout& layout,
                       const practice::Pack& pack, std::vector<job::Finding>& findings);

}  // namespace lapwright::pieces
