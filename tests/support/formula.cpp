#include "formula.h"

#include <cctype>
#include <cmath>
#include <cstdlib>
#include <set>
#include <vector>

namespace lapwright::sample {

namespace {

constexpr long double kCountNoise = 1e-9L;
constexpr long double kDegree = 3.14159265358979323846264338327950288L / 180;

class Reader {
 public:
  Reader(std::string_view text, const std::map<std::string, long double>& symbols)
      : text_(text), symbols_(symbols) {}

  Evaluated whole() {
    const long double value = sum();
    skip();
    if (complaint_.empty() && at_ != text_.size()) complain("something after the end");
    return {value, complaint_};
  }
  const std::set<std::string>& used() const { return used_; }

 private:
  void complain(const std::string& what) {
    if (complaint_.empty())
      complaint_ = what + " at " + std::to_string(at_) + " of \"" + std::string(text_) + "\"";
  }
  void skip() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }
  bool take(char c) {
    skip();
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }
  bool take_or_complain(char c) {
    if (take(c)) return true;
    complain(std::string("no ") + c);
    return false;
  }

  long double sum() {
    long double value = product();
    while (complaint_.empty()) {
      if (take('+')) {
        value += product();
      } else if (take('-')) {
        value -= product();
      } else {
        break;
      }
    }
    return value;
  }

  long double product() {
    long double value = factor();
    while (complaint_.empty()) {
      if (take('*')) {
        value *= factor();
      } else if (take('/')) {
        const long double by = factor();
        if (by == 0) complain("a division by nought");
        value /= by == 0 ? 1 : by;
      } else {
        break;
      }
    }
    return value;
  }

  long double factor() {
    if (take('-')) return -factor();
    if (take('(')) {
      const long double value = sum();
      take_or_complain(')');
      return value;
    }
    skip();
    if (at_ >= text_.size()) {
      complain("nothing");
      return 0;
    }
    const unsigned char c = static_cast<unsigned char>(text_[at_]);
    if (std::isdigit(c) != 0) return number();
    if (std::isalpha(c) != 0 || c == '_') return name();
    complain("a strange character");
    return 0;
  }

  long double number() {
    const std::string rest(text_.substr(at_));
    char* end = nullptr;
    const long double value = std::strtold(rest.c_str(), &end);
    at_ += static_cast<std::size_t>(end - rest.c_str());
    return value;
  }

  long double name() {
    const std::size_t begin = at_;
    while (at_ < text_.size() &&
           (std::isalnum(static_cast<unsigned char>(text_[at_])) != 0 || text_[at_] == '_')) {
      ++at_;
    }
    const std::string word(text_.substr(begin, at_ - begin));
    skip();
    if (at_ < text_.size() && text_[at_] == '(') return call(word);
    const auto symbol = symbols_.find(word);
    if (symbol == symbols_.end()) {
      complain("unknown symbol " + word);
      return 0;
    }
    used_.insert(word);
    return symbol->second;
  }

  long double call(const std::string& function) {
    ++at_;
    std::vector<long double> values{sum()};
    while (take(',')) values.push_back(sum());
    take_or_complain(')');
    if (function == "min" || function == "max") {
      long double best = values.front();
      for (const long double v : values) best = function == "min" ? std::fmin(best, v) : std::fmax(best, v);
      return best;
    }
    if (values.size() != 1) complain(function + " of several values");
    const long double x = values.front();
    if (function == "ceil") return std::ceil(x - kCountNoise);
    if (function == "floor") return std::floor(x + kCountNoise);
    if (function == "sin") return std::sin(x * kDegree);
    if (function == "cos") return std::cos(x * kDegree);
    if (function == "tan") return std::tan(x * kDegree);
    if (function == "sqrt") return std::sqrt(x);
    complain("unknown function " + function);
    return 0;
  }

  std::string_view text_;
  const std::map<std::string, long double>& symbols_;
  std::size_t at_ = 0;
  std::string complaint_;
  std::set<std::string> used_;
};

}  // namespace

Evaluated evaluate(std::string_view formula, const std::map<std::string, long double>& symbols) {
  return Reader(formula, symbols).whole();
}

std::string complaint_about(const job::Figure& figure) {
  std::map<std::string, long double> symbols;
  for (const job::Term& term : figure.terms) {
    const auto [place, added] = symbols.emplace(term.symbol, term.value);
    if (!added) return figure.name + ": two terms are called " + term.symbol;
  }
  Reader reader(figure.formula, symbols);
  const Evaluated got = reader.whole();
  if (!got.complaint.empty()) return figure.name + ": " + got.complaint;
  for (const job::Term& term : figure.terms) {
    if (!reader.used().contains(term.symbol)) {
      return figure.name + ": term " + term.symbol + " is not in \"" + figure.formula + "\"";
    }
  }
  // Relative to the largest quantity in play: a small difference of large lengths carries their rounding.
  long double scale = std::fabs(static_cast<long double>(figure.value));
  for (const job::Term& term : figure.terms)
    scale = std::fmax(scale, std::fabs(static_cast<long double>(term.value)));
  constexpr long double kRelative = 1e-9L;
  const long double off = std::fabs(got.value - static_cast<long double>(figure.value));
  if (!(off <= kRelative * scale)) {
    return figure.name + ": " + figure.formula + " gives " + std::to_string(got.value) +
           ", the figure says " + std::to_string(figure.value);
  }
  return {};
}

}  // namespace lapwright::sample
