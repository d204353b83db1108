// Bond: the units of each course from side to side, with no half units at a wall.
#pragma once

#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

namespace lapwright::setout {

// Fills `layout.rows` of survey.slopes[index], and adds findings about narrow cuts and sidelap.
void lay_units(const job::Survey& survey, std::size_t index, const practice::Pack& pack,
               job::SlopeLayout& layout);

}  // namespace lapwright::setout
