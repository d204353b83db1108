// A JSON file as a value tree of our own: every value knows where it stood, so that a fault can say so.
//
// read_document() is the only door for bytes from outside. It refuses, with line and column: anything that is
// not JSON (RFC 8259), NaN and infinities, numbers beyond a double, bad UTF-8, duplicate keys, more than
// kMaxDepth levels, more than kMaxValues values, more than kMaxBytes bytes. It never recurses on input depth,
// so 100,000 brackets cost nothing.
#pragma once

#include <lapwright/base/fault.h>

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::job {

inline constexpr std::size_t kMaxDepth = 32;
inline constexpr std::size_t kMaxValues = 200'000;
inline constexpr std::size_t kMaxBytes = 8'000'000;

struct Document {
  enum class Kind : std::uint8_t { null, boolean, number, text, list, object };
  struct Member;

  Kind kind = Kind::null;
  bool boolean = false;
  double number = 0;
  std::string text;  // of a text; of a number: as it was written
  std::vector<Document> items;
  std::vector<Member> members;  // in the file's order
  SourceSpot spot;

  const Document* find(std::string_view key) const;  // null when absent or not an object
};

struct Document::Member {
  std::string key;
  Document value;
  SourceSpot spot;  // of the key
};

Result<Document> read_document(std::string_view bytes);

}  // namespace lapwright::job
