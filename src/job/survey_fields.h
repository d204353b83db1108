// The field tables of format "lapwright-job/1".
#pragma once

#include "field_table.h"

namespace lapwright::job {

inline constexpr std::string_view kJobFormat = "lapwright-job/1";

const Table& survey_table();

// Every table, in the order of first use; the schema's $defs.
std::span<const Table* const> survey_tables();

}  // namespace lapwright::job
