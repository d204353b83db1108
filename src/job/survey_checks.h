// What the field tables cannot say: how a value finds its place where that is not a plain member, and which
// values cannot stand together.
#pragma once

#include "field_table.h"
#include "reading.h"

namespace lapwright::job {

void put_exposure(void* survey, const Scalar& value);
void put_gap(void* junction, const Scalar& value);
void put_point(void* junction, const Scalar& value);
void put_piece(void* as_built, const Scalar& value);
void* the_survey(void* survey);

void begin_slope(void* slope, SourceSpot spot, const Path& path);
void begin_junction(void* junction, SourceSpot spot, const Path& path);

void check_covering(Reading& reading, const Document& from, void* covering, const Path& path);
void check_wall(Reading& reading, const Document& from, void* wall, const Path& path);
void check_junction(Reading& reading, const Document& from, void* junction, const Path& path);
void check_slope(Reading& reading, const Document& from, void* slope, const Path& path);
void check_survey(Reading& reading, const Document& from, void* survey, const Path& path);

}  // namespace lapwright::job
