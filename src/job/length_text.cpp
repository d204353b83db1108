// Text to a length, exactly: every number is kept as a fraction of whole numbers until the one division at
// the end.
#include <lapwright/job/length_text.h>

#include <fast_float/fast_float.h>
#include <fmt/core.h>

#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "length_number.h"

namespace lapwright::job {

namespace {

constexpr std::size_t kLongestText = 64;
constexpr double kLongestMm = 1e9;  // so that every length can be shown in whole mm or sixteenths
constexpr std::uint64_t kExactDouble = 1ULL << 53U;  // whole numbers up to here are doubles

enum class Unit : std::uint8_t { none, mm, cm, m, inch, foot };

struct Token {
  enum class Kind : std::uint8_t { number, slash, fraction, unit, end } kind = Kind::end;
  std::string digits;     // of a number: digits and at most one '.'
  std::uint64_t top = 0;  // of a fraction character
  std::uint64_t bottom = 1;
  Unit unit = Unit::none;
  bool spaced = false;  // a blank stands before it
};

struct Symbol {
  std::string_view text;
  Unit unit;
};
// Longest first where one begins another. '' is what people type who cannot type ".
constexpr std::array<Symbol, 16> kUnits{{
    {"mm", Unit::mm},
    {"cm", Unit::cm},
    {"m", Unit::m},
    {"inches", Unit::inch},
    {"inch", Unit::inch},
    {"in", Unit::inch},
    {"\"", Unit::inch},
    {"\u2033", Unit::inch},  // double prime
    {"\u201D", Unit::inch},  // what a phone makes of "
    {"''", Unit::inch},
    {"feet", Unit::foot},
    {"foot", Unit::foot},
    {"ft", Unit::foot},
    {"'", Unit::foot},
    {"\u2032", Unit::foot},  // prime
    {"\u2019", Unit::foot},  // what a phone makes of '
}};

struct Vulgar {
  std::string_view text;
  std::uint64_t top;
  std::uint64_t bottom;
};
constexpr std::array<Vulgar, 7> kVulgar{{
    {"\u00BD", 1, 2},
    {"\u00BC", 1, 4},
    {"\u00BE", 3, 4},
    {"\u215B", 1, 8},
    {"\u215C", 3, 8},
    {"\u215D", 5, 8},
    {"\u215E", 7, 8},
}};

constexpr std::array<std::string_view, 6> kBlanks{" ", "\t", "\u00A0", "\u2009", "\u202F", "\u2002"};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

// The text as tokens, or why not (a sentence that mends it).
class Lexer {
 public:
  explicit Lexer(std::string_view text) : rest_(text) {}

  std::optional<std::string> run(std::vector<Token>& out) {
    for (;;) {
      const bool spaced = skip_blanks();
      if (rest_.empty()) break;
      Token token;
      token.spaced = spaced;
      if (auto why = next(token)) return why;
      out.push_back(token);
    }
    out.push_back({});
    return std::nullopt;
  }

 private:
  bool skip_blanks() {
    bool any = false;
    for (bool again = true; again;) {
      again = false;
      for (const std::string_view blank : kBlanks) {
        if (!rest_.starts_with(blank)) continue;
        rest_.remove_prefix(blank.size());
        any = again = true;
      }
    }
    return any;
  }

  std::optional<std::string> next(Token& token) {
    if (is_digit(rest_.front()) || rest_.front() == '.' || rest_.front() == ',') return number(token);
    if (rest_.front() == '-' || rest_.starts_with("\u2212"))
      return "a length here is never negative: remove the minus";
    if (rest_.starts_with("\u2013") || rest_.starts_with("\u2014")) return "remove the dash";
    if (rest_.front() == '/' || rest_.starts_with("\u2044")) {
      token.kind = Token::Kind::slash;
      rest_.remove_prefix(rest_.front() == '/' ? 1 : 3);
      return std::nullopt;
    }
    for (const Vulgar& v : kVulgar) {
      if (!rest_.starts_with(v.text)) continue;
      token.kind = Token::Kind::fraction;
      token.top = v.top;
      token.bottom = v.bottom;
      rest_.remove_prefix(v.text.size());
      return std::nullopt;
    }
    return unit(token);
  }

  std::optional<std::string> number(Token& token) {
    token.kind = Token::Kind::number;
    std::size_t points = 0;
    std::size_t commas = 0;
    std::size_t after = 0;
    std::size_t n = 0;
    for (; n < rest_.size() && (is_digit(rest_[n]) || rest_[n] == '.' || rest_[n] == ','); ++n) {
      const char c = rest_[n];
      points += c == '.' ? 1U : 0U;
      commas += c == ',' ? 1U : 0U;
      after = is_digit(c) ? after + 1 : 0;
      token.digits += c == ',' ? '.' : c;
    }
    rest_.remove_prefix(n);
    if (points != 0 && commas != 0) return "write the number with one decimal point and no other separator";
    if (points + commas > 1) return "write the number with one decimal point";
    if (points + commas == 1 && (after == 0 || token.digits.front() == '.')) {
      return "write digits on both sides of the decimal point";
    }
    if (commas == 1 && after == 3) {
      return "a comma before three digits may mean thousands: write a decimal point, or no separator";
    }
    return std::nullopt;
  }

  std::optional<std::string> unit(Token& token) {
    token.kind = Token::Kind::unit;
    std::size_t n = 0;
    while (n < rest_.size() && is_letter(rest_[n])) ++n;
    const std::string word = lower(rest_.substr(0, n));
    for (const Symbol& symbol : kUnits) {
      if (n != 0 ? word == symbol.text : rest_.starts_with(symbol.text)) {
        // '' must win over '.
        if (n == 0 && symbol.text == "'" && rest_.starts_with("''")) continue;
        token.unit = symbol.unit;
        rest_.remove_prefix(symbol.text.size());
        return std::nullopt;
      }
    }
    if (n != 0)
      return fmt::format("{} is not a unit of length here: use mm, cm, m, in or ft", quoted(word, 24));
    return "use digits, a fraction and one of the units mm, cm, m, in, ft";
  }

  std::string_view rest_;
};

// A number as top / bottom, or its digits alone where they are too many for that.
struct Quantity {
  std::uint64_t top = 0;
  std::uint64_t bottom = 1;
  std::string long_digits;
  bool whole = true;
  Unit unit = Unit::none;
};

std::optional<std::uint64_t> whole_number(std::string_view digits, std::uint64_t most) {
  std::uint64_t value = 0;
  for (const char c : digits) {
    if (!is_digit(c)) return std::nullopt;
    value = value * 10 + static_cast<std::uint64_t>(c - '0');
    if (value > most) return std::nullopt;
  }
  return value;
}

constexpr std::uint64_t kMostWhole = 1'000'000'000;
constexpr std::uint64_t kMostBottom = 1024;
constexpr std::size_t kShortDecimals = 6;  // more than these and the digits are multiplied as text

class Parser {
 public:
  explicit Parser(const std::vector<Token>& tokens) : tokens_(tokens) {}

  // One quantity: number [fraction] [unit].
  std::optional<std::string> quantity(Quantity& out) {
    bool fraction_only = false;
    if (now().kind == Token::Kind::number) {
      const std::string digits = now().digits;
      const std::size_t point = digits.find('.');
      at_ += 1;
      if (now().kind == Token::Kind::slash) {
        at_ -= 1;
        fraction_only = true;
      } else if (point == std::string::npos) {
        const auto value = whole_number(digits, kMostWhole);
        if (value) {
          out.top = *value;
        } else {
          out.long_digits = digits;
        }
      } else {
        decimal(out, digits, point);
      }
      if (!fraction_only && (now().kind == Token::Kind::number || now().kind == Token::Kind::fraction)) {
        // "10 1/2": a fraction must follow; "1 200 mm" is refused, because 1 and 200 might be two numbers.
        const bool is_fraction =
            now().kind == Token::Kind::fraction || tokens_[at_ + 1].kind == Token::Kind::slash;
        if (!is_fraction) return "write one number, without blanks inside it";
        if (point != std::string::npos || !out.long_digits.empty()) {
          return "write either decimals or a fraction, not both";
        }
        return with_fraction(out);
      }
      if (fraction_only) return with_fraction(out);
    } else if (now().kind == Token::Kind::fraction) {
      return with_fraction(out);
    } else {
      return "write a number first";
    }
    return unit(out);
  }

  const Token& now() const { return tokens_[at_]; }

 private:
  static void decimal(Quantity& out, const std::string& digits, std::size_t point) {
    out.whole = false;
    const std::size_t decimals = digits.size() - point - 1;
    std::string joined = digits.substr(0, point) + digits.substr(point + 1);
    const auto value = whole_number(joined, kMostWhole);
    if (decimals > kShortDecimals || !value) {
      out.long_digits = digits;
      return;
    }
    out.top = *value;
    for (std::size_t i = 0; i < decimals; ++i) out.bottom *= 10;
  }

  std::optional<std::string> with_fraction(Quantity& out) {
    std::uint64_t top = now().top;
    std::uint64_t bottom = now().bottom;
    if (now().kind == Token::Kind::fraction) {
      at_ += 1;
    } else {
      const auto upper = whole_number(now().digits, kMostBottom);
      at_ += 1;
      if (now().kind != Token::Kind::slash) return "write a fraction as 1/2";
      at_ += 1;
      if (now().kind != Token::Kind::number) return "write a fraction as 1/2";
      const auto lower_part = whole_number(now().digits, kMostBottom);
      at_ += 1;
      if (!upper || !lower_part || *lower_part == 0)
        return "write a fraction of whole numbers, such as 1/2 or 5/16";
      top = *upper;
      bottom = *lower_part;
    }
    if (top >= bottom) return "write a fraction that is less than one, such as 1 1/2 instead of 3/2";
    out.top = out.top * bottom + top;
    out.bottom = bottom;
    out.whole = false;
    return unit(out);
  }

  std::optional<std::string> unit(Quantity& out) {
    if (now().kind == Token::Kind::unit) {
      out.unit = now().unit;
      at_ += 1;
    }
    return std::nullopt;
  }

  const std::vector<Token>& tokens_;
  std::size_t at_ = 0;
};

struct Factor {
  std::uint64_t top;
  std::uint64_t bottom;
};
Factor factor_of(Unit unit) {
  switch (unit) {
    case Unit::cm:
      return {10, 1};
    case Unit::m:
      return {1000, 1};
    case Unit::inch:
      return {254, 10};
    case Unit::foot:
      return {3048, 10};
    case Unit::none:
    case Unit::mm:
      break;
  }
  return {1, 1};
}

// digits (with at most one '.') × factor, as one decimal number that is rounded once.
double product(std::string_view digits, Factor factor, std::int64_t exponent) {
  std::string joined;
  for (const char c : digits) {
    if (c == '.') continue;
    joined += c;
  }
  const std::size_t point = digits.find('.');
  if (point != std::string_view::npos) exponent -= static_cast<std::int64_t>(digits.size() - point - 1);
  std::string out;  // least digit first
  std::uint64_t carry = 0;
  for (std::size_t i = joined.size(); i-- > 0;) {
    carry += static_cast<std::uint64_t>(joined[i] - '0') * factor.top;
    out += static_cast<char>('0' + carry % 10);
    carry /= 10;
  }
  for (; carry != 0; carry /= 10) out += static_cast<char>('0' + carry % 10);
  std::string text(out.rbegin(), out.rend());
  if (factor.bottom == 10) exponent -= 1;
  text += fmt::format("e{}", exponent);
  double value = 0;
  const auto parsed = fast_float::from_chars(text.data(), text.data() + text.size(), value);
  return parsed.ec == std::errc{} ? value : HUGE_VAL;
}

double value_in_mm(const Quantity& q) {
  const Factor factor = factor_of(q.unit);
  if (!q.long_digits.empty()) return product(q.long_digits, factor, 0);
  const std::uint64_t top = q.top * factor.top;
  const std::uint64_t bottom = q.bottom * factor.bottom;
  if (top < kExactDouble && bottom < kExactDouble)
    return static_cast<double>(top) / static_cast<double>(bottom);
  return HUGE_VAL;
}

constexpr std::string_view kAccepted =
    "a length such as \"75 mm\", \"4.2 m\", \"10 1/2 in\" or \"18 ft 6 in\"";

tl::unexpected<Faults> refused(std::string_view text, std::string mend) {
  return failed({FaultCode::bad_length, "", {}, quoted(text), std::string(kAccepted), std::move(mend)});
}

}  // namespace

Result<Length> read_length(std::string_view text, LengthUnit bare) {
  if (text.size() > kLongestText) return refused(text, "write a shorter length");
  std::vector<Token> tokens;
  if (auto why = Lexer(text).run(tokens)) return refused(text, *why);
  if (tokens.size() == 1) return refused(text, "write a number and its unit");
  Parser parser(tokens);
  Quantity first;
  if (auto why = parser.quantity(first)) return refused(text, *why);
  if (first.unit == Unit::none) first.unit = bare == LengthUnit::mm ? Unit::mm : Unit::inch;
  double mm = value_in_mm(first);
  if (parser.now().kind != Token::Kind::end) {
    if (parser.now().kind == Token::Kind::unit) return refused(text, "name one unit only");
    if (parser.now().kind == Token::Kind::slash) return refused(text, "write a fraction as 1/2");
    if (first.unit != Unit::foot) return refused(text, "use one unit; only feet and inches go together");
    Quantity second;
    if (auto why = parser.quantity(second)) return refused(text, *why);
    if (second.unit != Unit::inch || parser.now().kind != Token::Kind::end) {
      return refused(text, "after feet write inches, as in 18 ft 6 1/2 in");
    }
    if (!first.whole || !first.long_digits.empty() || !second.long_digits.empty()) {
      return refused(text, "write whole feet before inches, and at most six decimals");
    }
    // feet and inches as one count of inches, so that the sum is rounded once
    second.top += first.top * 12 * second.bottom;
    mm = value_in_mm(second);
  }
  if (!(mm <= kLongestMm)) return refused(text, "write a length that a roof can have");
  return Length::mm(mm);
}

Length length_of_number(std::string_view number, LengthUnit unit) {
  const bool negative = number.starts_with('-');
  if (negative) number.remove_prefix(1);
  std::int64_t exponent = 0;
  const std::size_t e = number.find_first_of("eE");
  if (e != std::string_view::npos) {
    std::string_view tail = number.substr(e + 1);
    const bool down = tail.starts_with('-');
    if (down || tail.starts_with('+')) tail.remove_prefix(1);
    for (const char c : tail) {
      if (exponent < 100'000) exponent = exponent * 10 + (c - '0');
    }
    if (down) exponent = -exponent;
    number = number.substr(0, e);
  }
  const double mm = product(number, factor_of(unit == LengthUnit::mm ? Unit::mm : Unit::inch), exponent);
  return Length::mm(negative ? -mm : mm);
}

}  // namespace lapwright::job
