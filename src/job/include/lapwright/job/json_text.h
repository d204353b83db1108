// JSON text, written piece by piece: the same calls give the same bytes everywhere.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace lapwright::job {

// `text` in quotes. Quotes, backslashes and control characters are escaped; the rest, which the reader has
// found to be UTF-8, passes as it is.
std::string json_quoted(std::string_view text);

// Keeps count of commas. Everything stands on one line, except that a list opened by lines() has one item a
// line.
class JsonText {
 public:
  void open_object() { open('{'); }
  void close_object() { close('}', false); }
  void open_list() { open('['); }
  void close_list() { close(']', false); }
  // A list, or the outermost object, with each item on a line of its own.
  void open_lines(char bracket);
  void close_lines(char bracket) { close(bracket, true); }

  void key(std::string_view key);
  void text(std::string_view value);
  void number(double value, int decimals);
  void count(std::int64_t value);
  void flag(bool value);
  void raw(std::string_view json);  // a whole value, already JSON

  std::string take() { return std::move(out_); }

 private:
  void open(char bracket);
  void close(char bracket, bool by_lines);
  void before_value();

  std::string out_;
  std::string lines_;       // one character per open bracket: 'l' by lines, '-' not
  bool first_ = true;       // nothing stands yet in the innermost bracket
  bool after_key_ = false;  // a value belongs to the key just written
};

// The same JSON with one member or item a line, two blanks a level, ending in a line break.
std::string json_indented(std::string_view json);

}  // namespace lapwright::job
