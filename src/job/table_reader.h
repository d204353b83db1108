// Fills a struct from a Document by its field table.
#pragma once

#include "field_table.h"
#include "reading.h"

namespace lapwright::job {

// Every fault goes to `reading`. `into` is the struct that the table describes; members that were at fault
// keep their defaults.
void read_object(Reading& reading, const Table& table, const Document& from, void* into, const Path& path);

// What a field accepts, in words; bounds in the file's unit.
std::string accepted_by(const Field& field, LengthUnit unit);
// Only the bounds: "more than 0 and at most 100000 mm".
std::string accepted_range(const Field& field, LengthUnit unit);

// The bounds of a field that holds a number; unknown for any other.
FaultRange range_of(const Field& field, LengthUnit unit);

// The texts in quotes, with commas and a last "or".
std::string listed(Words words);

}  // namespace lapwright::job
