#include "csv.h"

#include <lapwright/base/numbers.h>

#include <fmt/format.h>

namespace lapwright::engine {

Csv::Csv(const std::vector<std::string>& head) : bytes_("\xEF\xBB\xBF") {
  for (const std::string& name : head) text(name);
  end();
}

void Csv::raw(std::string_view value) {
  if (begun_) bytes_ += ',';
  begun_ = true;
  bytes_ += value;
}

Csv& Csv::text(std::string_view value) {
  const bool like_a_formula =
      !value.empty() && std::string_view("=+-@\t\r").find(value.front()) != std::string_view::npos;
  std::string out = like_a_formula ? "'" : "";
  for (const char c : value) {
    if (c == '"') out += '"';
    out += c;
  }
  const bool quote =
      out.find_first_of("\",\r\n") != std::string::npos || out.starts_with(' ') || out.ends_with(' ');
  raw(quote ? "\"" + out + "\"" : out);
  return *this;
}

Csv& Csv::number(double value, int decimals) {
  raw(trimmed(value, decimals));
  return *this;
}

Csv& Csv::money(long long hundredths) {
  const long long all = hundredths < 0 ? -hundredths : hundredths;
  raw(fmt::format("{}{}.{:02}", hundredths < 0 ? "-" : "", all / 100, all % 100));
  return *this;
}

Csv& Csv::none() {
  raw("");
  return *this;
}

void Csv::end() {
  bytes_ += "\r\n";
  begun_ = false;
}

}  // namespace lapwright::engine
