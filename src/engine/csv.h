// Lists for a spreadsheet: RFC 4180, UTF-8 with a byte order mark, for without one spreadsheets take "×" and
// "£" for something else.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace lapwright::engine {

class Csv {
 public:
  explicit Csv(const std::vector<std::string>& head);

  // A row is built field by field. Texts that a spreadsheet would take for a formula get an apostrophe in
  // front.
  Csv& text(std::string_view value);
  Csv& number(double value, int decimals);
  Csv& money(long long hundredths);  // 1234 → 12.34
  Csv& none();
  void end();

  std::string take() { return std::move(bytes_); }

 private:
  void raw(std::string_view value);

  std::string bytes_;
  bool begun_ = false;
};

}  // namespace lapwright::engine
