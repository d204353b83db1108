#include <lapwright/practice/money.h>

#include <fmt/format.h>

#include <cmath>

namespace lapwright::practice {

std::string money_shown(double hundredths, std::string_view currency) {
  const auto all = std::llround(std::fabs(hundredths));
  const std::string sign = hundredths < -0.5 ? "−" : "";
  const std::string number = fmt::format("{}.{:02}", all / 100, all % 100);
  if (currency == "GBP") return sign + "£" + number;
  if (currency == "EUR") return sign + "€" + number;
  if (currency == "USD") return sign + "$" + number;
  return sign + number + " " + std::string(currency);
}

std::string percent_shown(double share) {
  return fmt::format("{:.2f} %", share * 100);
}

}  // namespace lapwright::practice
