#include <lapwright/estimate/offer.h>

#include <lapwright/base/numbers.h>
#include <lapwright/base/tolerance.h>

#include <array>
#include <cmath>
#include <utility>
#include <vector>

namespace lapwright::estimate {

namespace {

struct Token {
  enum class Kind : std::uint8_t { number, word, currency } kind = Kind::word;
  double number = 0;
  std::string text;  // as written; a currency: its three letters
};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

constexpr std::array<std::pair<std::string_view, std::string_view>, 3> kSigns{
    {{"£", "GBP"}, {"€", "EUR"}, {"$", "USD"}}};

// Digits, one point, commas before groups of three: "1,250.50".
Token number_at(std::string_view words, std::size_t& at) {
  Token out;
  out.kind = Token::Kind::number;
  double scale = 0;
  while (at < words.size()) {
    const char c = words[at];
    if (is_digit(c)) {
      constexpr double kTen = 10;
      if (scale > 0) {
        out.number += (c - '0') * scale;
        scale /= kTen;
      } else {
        out.number = out.number * kTen + (c - '0');
      }
    } else if (c == '.' && scale <= 0 && at + 1 < words.size() && is_digit(words[at + 1])) {
      scale = 0.1;
    } else if (!(c == ',' && at + 3 < words.size() && is_digit(words[at + 1]) && is_digit(words[at + 2]) &&
                 is_digit(words[at + 3]) && (at + 4 >= words.size() || !is_digit(words[at + 4])))) {
      break;
    }
    out.text += c;
    ++at;
  }
  return out;
}

Fault fault(FaultCode code, std::string read, std::string mend) {
  return {code,
          "OFFER",
          {},
          std::move(read),
          "a length, a code, a width and a price: \"50 m of code 4 at 150 wide, £570\"",
          std::move(mend)};
}

Result<std::vector<Token>> tokens_of(std::string_view words) {
  constexpr std::size_t kLongest = 400;
  if (words.size() > kLongest) return failed(fault(FaultCode::too_many, quoted(words), "write it shorter"));
  std::vector<Token> out;
  for (std::size_t at = 0; at < words.size();) {
    const char c = words[at];
    if (is_digit(c)) {
      out.push_back(number_at(words, at));
    } else if (is_letter(c)) {
      Token word;
      while (at < words.size() && is_letter(words[at])) word.text += words[at++];
      out.push_back(std::move(word));
    } else if (c == ' ' || c == ',' || c == ';' || c == ':') {
      ++at;
    } else {
      bool sign = false;
      for (const auto& [written, currency] : kSigns) {
        if (!words.substr(at).starts_with(written)) continue;
        out.push_back({Token::Kind::currency, 0, std::string(currency)});
        at += written.size();
        sign = true;
        break;
      }
      if (!sign) return failed(fault(FaultCode::bad_choice, quoted(words.substr(at)), "leave it out"));
    }
  }
  return out;
}

std::string lower(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

bool is_code_of_currency(const Token& token) {
  constexpr std::size_t kLetters = 3;
  if (token.kind != Token::Kind::word || token.text.size() != kLetters) return false;
  for (const char c : token.text) {
    if (c < 'A' || c > 'Z') return false;
  }
  return true;
}

class OfferReader {
 public:
  explicit OfferReader(std::vector<Token> tokens) : tokens_(std::move(tokens)) {}

  Result<Offer> run() {
    while (at_ < tokens_.size()) {
      if (!step()) return failed(std::move(faults_));
    }
    std::string missing;
    const auto want = [&](bool have, std::string_view what) {
      if (!have) missing += (missing.empty() ? "" : ", ") + std::string(what);
    };
    want(length_.has_value(), "a length");
    want(code_.has_value(), "a code");
    want(width_.has_value(), "a width");
    want(price_.has_value(), "a price");
    if (!missing.empty()) return failed(fault(FaultCode::missing_key, "no " + missing, "say it as well"));
    Offer out;
    out.code = whole_down(*code_);
    out.width = Length::mm(*width_);
    out.length = Length::mm(*length_ * rolls_.value_or(1));
    constexpr double kHundred = 100;
    out.price = whole_down(*price_ * kHundred + 0.5);
    out.currency = currency_;
    return out;
  }

 private:
  const Token* peek(std::size_t ahead) const {
    return at_ + ahead < tokens_.size() ? &tokens_[at_ + ahead] : nullptr;
  }
  bool word_at(std::size_t ahead, std::string_view word) const {
    const Token* token = peek(ahead);
    return token != nullptr && token->kind == Token::Kind::word && lower(token->text) == word;
  }
  bool number_at(std::size_t ahead) const {
    const Token* token = peek(ahead);
    return token != nullptr && token->kind == Token::Kind::number;
  }

  bool set(std::optional<double>& into, double value, std::string_view what, double least, double most) {
    if (into) {
      faults_.push_back(fault(FaultCode::duplicate_key, std::string(what) + " twice", "say it once"));
      return false;
    }
    if (value < least || value > most) {
      faults_.push_back(fault(FaultCode::out_of_range, std::string(what) + " " + trimmed(value, 2),
                              trimmed(least, 2) + " to " + trimmed(most, 2)));
      return false;
    }
    into = value;
    return true;
  }

  bool set_price(double value, const std::string& currency) {
    currency_ = currency;
    return set(price_, value, "a price", 0.01, 1e6);
  }

  // One thing that is said.
  bool step() {
    const Token& token = tokens_[at_];
    if (token.kind == Token::Kind::currency) {
      if (!number_at(1)) return refuse(token);
      at_ += 2;
      return set_price(tokens_[at_ - 1].number, token.text);
    }
    if (token.kind == Token::Kind::word) {
      const std::string word = lower(token.text);
      if (word == "code" && number_at(1)) {
        at_ += 2;
        return set(code_, tokens_[at_ - 1].number, "a code", 3, 8);
      }
      if (word == "of" || word == "at" || word == "for" || word == "lead" || word == "long" ||
          word == "wide") {
        ++at_;
        return true;
      }
      return refuse(token);
    }
    const double number = token.number;
    if (word_at(1, "roll") || word_at(1, "rolls")) {
      at_ += 2;
      return set(rolls_, number, "a number of rolls", 1, 10'000);
    }
    if (peek(1) != nullptr && is_code_of_currency(*peek(1))) {
      at_ += 2;
      return set_price(number, tokens_[at_ - 1].text);
    }
    const bool m = word_at(1, "m");
    const bool mm = word_at(1, "mm");
    const bool wide = word_at(m || mm ? 2 : 1, "wide");
    at_ += (m || mm ? 2U : 1U) + (wide ? 1U : 0U);
    constexpr double kMmInM = 1000;
    if (wide) return set(width_, m ? number * kMmInM : number, "a width", 20, 3000);
    if (m) return set(length_, number * kMmInM, "a length", 100, 1e7);
    return refuse(token);
  }

  bool refuse(const Token& token) {
    faults_.push_back(
        fault(FaultCode::bad_choice, quoted(token.text), "say what it is: m, wide, code or a price"));
    return false;
  }

  std::vector<Token> tokens_;
  std::size_t at_ = 0;
  std::optional<double> length_;
  std::optional<double> width_;
  std::optional<double> code_;
  std::optional<double> rolls_;
  std::optional<double> price_;
  std::string currency_;
  Faults faults_;
};

}  // namespace

Result<Offer> read_offer(std::string_view words) {
  auto tokens = tokens_of(words);
  if (!tokens) return failed(std::move(tokens.error()));
  return OfferReader(std::move(*tokens)).run();
}

Result<OfferJudged> judge(const Offer& offer, const job::Yard& yard, const practice::Pack& pack) {
  if (offer.currency != yard.currency) {
    return failed(fault(FaultCode::contradiction, quoted(offer.currency),
                        "the yard's prices are in " + yard.currency + "; nothing is converted"));
  }
  if (!pack.has_lead(offer.code)) {
    return failed(fault(FaultCode::bad_choice, "code " + std::to_string(offer.code), "a code from 3 to 8"));
  }
  const double kg_per_m2 = pack.lead(offer.code).kg_per_m2;
  const double kg_per_m = offer.width.in_m() * kg_per_m2;
  OfferJudged out;
  out.mass = Mass::kg(kg_per_m * offer.length.in_m());
  out.per_kg = static_cast<double>(offer.price) / out.mass.in_kg();
  out.per_m = static_cast<double>(offer.price) / offer.length.in_m();
  const auto cheapest = [&](bool same_width) {
    std::optional<double> best;
    for (const job::YardRoll& roll : yard.rolls) {
      if (roll.code != offer.code) continue;
      if (same_width && abs(roll.width - offer.width) > tolerance::kOnPlane) continue;
      const double kg = (roll.width * roll.length).in_m2() * kg_per_m2;
      const double per_kg = roll.price_per_kg ? static_cast<double>(*roll.price_per_kg)
                                              : static_cast<double>(roll.price.value_or(0)) / kg;
      if (per_kg > 0 && (!best || per_kg < *best)) best = per_kg;
    }
    return best;
  };
  out.yard_per_kg = cheapest(true);
  out.same_width = out.yard_per_kg.has_value();
  if (!out.yard_per_kg) out.yard_per_kg = cheapest(false);
  if (out.yard_per_kg) out.yard_per_m = *out.yard_per_kg * kg_per_m;
  return out;
}

}  // namespace lapwright::estimate
