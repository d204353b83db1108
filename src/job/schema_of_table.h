// Field tables as JSON Schema 2020-12.
#pragma once

#include "field_table.h"

#include <string>

namespace lapwright::job {

// `tables`: the root first, then every table that it reaches; these become $defs.
std::string schema_of_table(std::string_view title, const Table& root, std::span<const Table* const> tables);

}  // namespace lapwright::job
