#include <lapwright/job/read_survey.h>

#include "reading.h"
#include "survey_fields.h"
#include "table_reader.h"

namespace lapwright::job {

namespace {

// Lengths are read in the file's unit, so it is looked up before anything else; the table then reads it like
// any other field, and finds its faults.
LengthUnit unit_of(const Document& job) {
  const Document* unit = job.find("unit");
  const bool inches = unit != nullptr && unit->kind == Document::Kind::text && unit->text == kShownInWords[1];
  return inches ? LengthUnit::inches : LengthUnit::mm;
}

}  // namespace

Result<Survey> read_survey(std::string_view bytes) {
  const Result<Document> document = read_document(bytes);
  if (!document) return failed(document.error());
  Reading reading(unit_of(*document));
  Survey survey;
  const Path root;
  read_object(reading, survey_table(), *document, &survey, root);
  if (!reading.sound()) return failed(reading.take());
  return survey;
}

}  // namespace lapwright::job
