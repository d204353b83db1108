// What a survey measures, shown on the drawings: one dimension for each value, with a tape end at each point.
//
// Each carries the tag "measure/" and the value's place in the job file ("measure/slopes[0].rafter"), so that
// a page can show the one that it asks for and hide the rest. They overlap: they are not for paper.
#pragma once

#include "wall.h"
#include "words.h"

#include <string>

namespace lapwright::sheets {

// A value's place in the job file without the leading "$.".
std::string place_in_job(const std::string& path, std::string_view key);

// On a slope seen square on, as roof_view() lays it; and the chalk lines of its battens, "batten/1" the
// lowest.
void add_roof_measures(draw::Drawing& out, const Sources& sources, const job::Slope& slope, double scale);

// On a side wall, as elevation() lays it.
void add_wall_measures(draw::Drawing& out, const Sources& sources, const Wall& wall, double scale);

// The slope from its side: pitch and rafter.
draw::Drawing side_view(const Sources& sources, const job::Slope& slope, double scale);

// The tail of the eaves course over the fascia.
draw::Drawing eaves_view(const Sources& sources, const job::Slope& slope, double scale);

// One unit of the covering, its face and its edge.
draw::Drawing unit_view(const Sources& sources, const job::Slope& slope, double scale);

// Three courses from the side: gauge and headlap.
draw::Drawing courses_view(const Sources& sources, const job::Slope& slope, double scale);

// The foot of a wall, cut square to it: the gap between masonry and units.
draw::Drawing gap_view(const Sources& sources, const job::Slope& slope, const job::Junction& junction,
                       double scale);

}  // namespace lapwright::sheets
