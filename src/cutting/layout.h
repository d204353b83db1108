// A pattern as the hand cuts it: parts with names, steps with marks for the tape, and where every piece comes
// to lie.
#pragma once

#include "shapes.h"

#include <lapwright/cutting/problem.h>
#include <lapwright/job/cutting.h>

#include <string>
#include <vector>

namespace lapwright::cutting {

// What the layout needs of the pieces behind a problem.
struct Pieces {
  std::vector<std::string> marks;    // of each type
  std::vector<Fitting> fittings;     // of each option, its true size without kerf
  std::vector<std::size_t> singles;  // of each type: its own option
  std::int32_t kerf = 0;
};

// Pieces, steps and what is left, of one roll of `width` × `length` mm; the other members are the caller's.
job::CutRoll lay_out(const Problem& problem, const Pattern& pattern, const Pieces& pieces, std::int32_t width,
                     std::int32_t length);

}  // namespace lapwright::cutting
