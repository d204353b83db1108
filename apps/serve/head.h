// The head of an HTTP request: its first line and its header fields, read strictly.
//
// What browsers send is read; everything that two programs could understand differently is refused: bare line
// feeds, folded lines, spaces before a colon, two lengths, a length beside a transfer coding, an address in
// the first line. Pure: the same bytes give the same answer, however they arrived.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::serve {

inline constexpr std::size_t kMostHead = 16'384;  // bytes of the first line and the fields together
inline constexpr std::size_t kMostTarget = 2'048;
inline constexpr std::size_t kMostFields = 64;  // a browser sends about twenty

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
  bool keep = true;          // the connection may be used again
  bool awaits_go_ahead = false;

  // Null when absent. Fields that decide anything are never there twice.
  const std::string* find(std::string_view name) const;
};

struct HeadRead {
  enum class State : std::uint8_t { more, bad, whole };
  State state = State::more;
  std::size_t size = 0;   // of the head in bytes, with the empty line that ends it; when whole
  int status = 0;         // when bad: the answer's status
  std::string_view text;  // when bad: why, in one line
  Head head;
};

HeadRead read_head(std::string_view bytes);

}  // namespace lapwright::serve
