#include "utf8.h"

#include <cstdint>

namespace lapwright::draw {

char32_t take_code_point(std::string_view& text) {
  const auto byte_at = [&](std::size_t i) { return static_cast<std::uint8_t>(text[i]); };
  const std::uint8_t first = byte_at(0);
  std::size_t length = 1;
  char32_t value = first;
  char32_t least = 0;
  if (first >= 0xF0 && first <= 0xF4) {
    length = 4, value = first & 0x07U, least = 0x10000;
  } else if (first >= 0xE0) {
    length = 3, value = first & 0x0FU, least = 0x800;
  } else if (first >= 0xC2) {
    length = 2, value = first & 0x1FU, least = 0x80;
  } else if (first >= 0x80) {
    length = 0;
  }
  if (first > 0xF4 || length == 0 || length > text.size()) {
    text.remove_prefix(1);
    return kBadByte;
  }
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte_at(i) & 0xC0U) != 0x80U) {
      text.remove_prefix(1);
      return kBadByte;
    }
    value = (value << 6U) | (byte_at(i) & 0x3FU);
  }
  if (value < least || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF)) {
    text.remove_prefix(1);
    return kBadByte;
  }
  text.remove_prefix(length);
  return value;
}

void append_utf8(std::string& out, char32_t c) {
  const auto put = [&](char32_t byte) { out.push_back(static_cast<char>(static_cast<std::uint8_t>(byte))); };
  if (c < 0x80) {
    put(c);
  } else if (c < 0x800) {
    put(0xC0U | (c >> 6U));
    put(0x80U | (c & 0x3FU));
  } else if (c < 0x10000) {
    put(0xE0U | (c >> 12U));
    put(0x80U | ((c >> 6U) & 0x3FU));
    put(0x80U | (c & 0x3FU));
  } else {
    put(0xF0U | (c >> 18U));
    put(0x80U | ((c >> 12U) & 0x3FU));
    put(0x80U | ((c >> 6U) & 0x3FU));
    put(0x80U | (c & 0x3FU));
  }
}

bool is_break(char32_t c) {
  return (c >= 0x09 && c <= 0x0D) || c == 0x85 || c == 0x2028 || c == 0x2029;
}

bool is_dropped(char32_t c) {
  if (is_break(c)) return false;
  return c < 0x20 || (c >= 0x7F && c <= 0x9F) || c == 0xAD || (c >= 0x200B && c <= 0x200F) ||
         (c >= 0x202A && c <= 0x202E) || (c >= 0x2060 && c <= 0x206F) || c == 0xFEFF || c == 0xFFFE ||
         c == 0xFFFF;
}

}  // namespace lapwright::draw
