#include <lapwright/base/fault.h>

#include <fmt/core.h>

namespace lapwright {

namespace {

// Length of the UTF-8 sequence that starts at text[at], or 0 when it is malformed (RFC 3629: no overlong
// forms, no surrogates, nothing above U+10FFFF).
std::size_t sequence_length(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) -> unsigned {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
  };
  const auto follows = [&](std::size_t i) { return (byte(i) & 0xC0U) == 0x80U; };
  const unsigned lead = byte(at);
  if (lead < 0x80U) return 1;
  if (lead >= 0xC2U && lead <= 0xDFU) return follows(at + 1) ? 2 : 0;
  if (lead >= 0xE0U && lead <= 0xEFU) {
    const unsigned second = byte(at + 1);
    if (lead == 0xE0U && second < 0xA0U) return 0;
    if (lead == 0xEDU && second > 0x9FU) return 0;
    return follows(at + 1) && follows(at + 2) ? 3 : 0;
  }
  if (lead >= 0xF0U && lead <= 0xF4U) {
    const unsigned second = byte(at + 1);
    if (lead == 0xF0U && second < 0x90U) return 0;
    if (lead == 0xF4U && second > 0x8FU) return 0;
    return follows(at + 1) && follows(at + 2) && follows(at + 3) ? 4 : 0;
  }
  return 0;
}

// Characters that a terminal or a reader of lines would obey rather than show: the two control blocks (the
// second is U+0080 to U+009F, where U+009B starts a terminal command), and Unicode's own line and paragraph
// separators.
bool is_control(std::string_view character) {
  const auto byte = static_cast<unsigned char>(character[0]);
  if (character.size() == 1) return byte < 0x20U || byte == 0x7FU;
  if (character.size() == 2) return byte == 0xC2U && static_cast<unsigned char>(character[1]) < 0xA0U;
  return character == "\xE2\x80\xA8" || character == "\xE2\x80\xA9";
}

void append_visible(std::string& out, std::string_view text, std::size_t limit, bool escape_quotes) {
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t known = sequence_length(text, at);
    const std::string_view character = text.substr(at, known == 0 ? 1 : known);
    at += character.size();
    if (at > limit) {
      out += "…";
      return;
    }
    if (known == 0 || is_control(character)) {
      for (const char c : character) out += fmt::format("\\x{:02x}", static_cast<unsigned char>(c));
      continue;
    }
    if (escape_quotes && character == "\"") out += '\\';
    out += character;
  }
}

}  // namespace

std::string_view name_of(FaultCode code) {
  return kFaultNames[static_cast<std::size_t>(code)].name;
}

std::string quoted(std::string_view text, std::size_t limit) {
  std::string out = "\"";
  append_visible(out, text, limit, true);
  out += '"';
  return out;
}

std::string to_line(const Fault& fault) {
  constexpr std::size_t kPathLimit = 200;
  constexpr std::size_t kPartLimit = 400;
  std::string out;
  append_visible(out, fault.path, kPathLimit, false);
  if (fault.spot.line != 0) out += fmt::format(" (line {}, column {})", fault.spot.line, fault.spot.column);
  out += ": ";
  out += name_of(fault.code);
  const auto part = [&](std::string_view label, const std::string& text) {
    if (text.empty()) return;
    out += "; ";
    out += label;
    append_visible(out, text, kPartLimit, false);
  };
  part("read ", fault.read);
  part("accepted: ", fault.accepted);
  part("mend: ", fault.mend);
  return out;
}

}  // namespace lapwright
