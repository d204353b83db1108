// The head of a request, as everything behind the parser sees it, and what is refused of what the parser lets
// through.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::serve {

struct Reply;

inline constexpr std::size_t kMostTarget = 2'048;
inline constexpr std::size_t kMostFields = 64;  // a browser sends about twenty

// ASCII letters alone.
std::string lower(std::string_view text);

struct Field {
  std::string name;  // in lower case
  std::string value;
};

struct Head {
  std::string method;
  std::string path;   // begins with "/"; not decoded
  std::string query;  // what follows "?"
  std::vector<Field> fields;
  bool has_length = false;
  std::uint64_t length = 0;  // of the body

  // Null when absent. Fields that decide anything are never there twice.
  const std::string* find(std::string_view name) const;
};

// Nothing when the head is sound. What two programs could understand differently is not, though HTTP allows
// some of it: a target that is no path, a field twice that decides something, chunks, a list of lengths.
std::optional<Reply> fault_in(const Head& head);

}  // namespace lapwright::serve
