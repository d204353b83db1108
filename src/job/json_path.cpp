#include "json_path.h"

#include <lapwright/base/fault.h>

#include <fmt/core.h>

#include <algorithm>

namespace lapwright::job {

std::string path_of_key(std::string_view key) {
  const bool plain = !key.empty() && key.size() <= 60 && std::all_of(key.begin(), key.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
  });
  return plain ? fmt::format(".{}", key) : fmt::format("[{}]", quoted(key));
}

std::string path_of_item(std::size_t index) {
  return fmt::format("[{}]", index);
}

}  // namespace lapwright::job
