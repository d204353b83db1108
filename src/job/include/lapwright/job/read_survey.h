// Job bytes to a survey, and the schema, from one field table.
//
// Every fault of a readable file is reported at once, each with its JSON path, line and column, what was
// read, what is accepted and how to mend it, in the order of the file. Unknown keys name the nearest known
// one. The schema printed by survey_schema() comes from the same table that reads, so the two cannot drift
// apart; what only reading can know (a unit inside a string, two keys that contradict each other) is in the
// descriptions.
#pragma once

#include <lapwright/job/document.h>
#include <lapwright/job/survey.h>

#include <string>
#include <string_view>

namespace lapwright::job {

Result<Survey> read_survey(std::string_view bytes);

// JSON Schema 2020-12 of format "lapwright-job/1", indented, ending in a line break.
std::string survey_schema();

}  // namespace lapwright::job
