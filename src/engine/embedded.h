// The data files that are built into the engine (cmake/embed.cmake).
#pragma once

#include <string_view>

namespace lapwright::embedded {

std::string_view common_yard_json();  // data/yard/common.json

}  // namespace lapwright::embedded
