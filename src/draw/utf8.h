// UTF-8 read without trust: every byte string gives a sequence of code points.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace lapwright::draw {

inline constexpr char32_t kBadByte = U'\uFFFD';

// Takes the next code point off the front of `text` (which must not be empty). A byte that begins no
// shortest-form UTF-8 sequence of a scalar value is taken alone, as kBadByte.
char32_t take_code_point(std::string_view& text);

void append_utf8(std::string& out, char32_t code_point);

// Controls (C0, C1, delete) and invisible marks that steer direction or joining: never drawn, never written.
bool is_dropped(char32_t code_point);
// Tab, line breaks and their Unicode kin: drawn as one space.
bool is_break(char32_t code_point);

}  // namespace lapwright::draw
