// The field tables of format "lapwright-yard/1".
#pragma once

#include "field_table.h"

namespace lapwright::job {

inline constexpr std::string_view kYardFormat = "lapwright-yard/1";

const Table& yard_table();
std::span<const Table* const> yard_tables();

}  // namespace lapwright::job
