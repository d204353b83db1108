#include <lapwright/job/json_text.h>

#include <lapwright/base/numbers.h>

#include <fmt/core.h>

namespace lapwright::job {

std::string json_quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (byte < 0x20U || byte == 0x7FU) {
      out += fmt::format("\\u{:04x}", byte);
    } else {
      out += c;
    }
  }
  out += '"';
  return out;
}

void JsonText::before_value() {
  if (after_key_) {
    after_key_ = false;
    return;
  }
  if (lines_.empty()) return;
  if (!first_) out_ += ',';
  if (lines_.back() == 'l') out_ += '\n';
  first_ = false;
}

void JsonText::open(char bracket) {
  before_value();
  out_ += bracket;
  lines_ += '-';
  first_ = true;
}

void JsonText::open_lines(char bracket) {
  before_value();
  out_ += bracket;
  lines_ += 'l';
  first_ = true;
}

void JsonText::close(char bracket, bool by_lines) {
  if (by_lines && !first_) out_ += '\n';
  out_ += bracket;
  lines_.pop_back();
  first_ = false;
}

void JsonText::key(std::string_view key) {
  before_value();
  out_ += json_quoted(key);
  out_ += ':';
  after_key_ = true;
}

void JsonText::text(std::string_view value) {
  before_value();
  out_ += json_quoted(value);
}

void JsonText::number(double value, int decimals) {
  before_value();
  out_ += trimmed(value, decimals);
}

void JsonText::count(std::int64_t value) {
  before_value();
  out_ += fmt::format("{}", value);
}

void JsonText::flag(bool value) {
  before_value();
  out_ += value ? "true" : "false";
}

void JsonText::raw(std::string_view json) {
  before_value();
  out_ += json;
}

std::string json_indented(std::string_view json) {
  std::string out;
  std::size_t depth = 0;
  bool in_text = false;
  const auto line = [&] {
    out += '\n';
    out.append(2 * depth, ' ');
  };
  for (std::size_t i = 0; i < json.size(); ++i) {
    const char c = json[i];
    if (in_text) {
      out += c;
      if (c == '\\') out += json[++i];
      if (c == '"') in_text = false;
      continue;
    }
    switch (c) {
      case '"':
        in_text = true;
        out += c;
        break;
      case '{':
      case '[':
        out += c;
        if (i + 1 < json.size() && (json[i + 1] == '}' || json[i + 1] == ']')) {
          out += json[++i];
          break;
        }
        depth += 1;
        line();
        break;
      case '}':
      case ']':
        depth -= 1;
        line();
        out += c;
        break;
      case ',':
        out += c;
        line();
        break;
      case ':':
        out += ": ";
        break;
      default:
        out += c;
    }
  }
  return out + '\n';
}

}  // namespace lapwright::job
