// Whatever bytes stood in a file, a fault is one clean line: valid UTF-8, no control character, bounded
// length.
#include <lapwright/base/fault.h>

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

// A second opinion on UTF-8, by decoding and encoding again, which the code under test does not do.
bool clean(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const auto lead = static_cast<unsigned char>(text[at]);
    if (lead < 0x20U || lead == 0x7FU) return false;
    const std::size_t length = lead < 0x80U ? 1 : lead < 0xE0U ? 2 : lead < 0xF0U ? 3 : 4;
    if (lead >= 0x80U && lead < 0xC0U) return false;
    if (at + length > text.size()) return false;
    std::uint32_t point = length == 1 ? lead : lead & (0x7FU >> length);
    for (std::size_t i = 1; i < length; ++i) {
      const auto byte = static_cast<unsigned char>(text[at + i]);
      if ((byte & 0xC0U) != 0x80U) return false;
      point = (point << 6U) | (byte & 0x3FU);
    }
    const std::size_t shortest = point < 0x80U ? 1 : point < 0x800U ? 2 : point < 0x10000U ? 3 : 4;
    if (length != shortest || point > 0x10FFFFU || (point >= 0xD800U && point <= 0xDFFFU)) return false;
    if (point >= 0x80U && point < 0xA0U) return false;       // the C1 control characters
    if (point == 0x2028U || point == 0x2029U) return false;  // line and paragraph separator
    at += length;
  }
  return true;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  for (const std::size_t limit : {std::size_t{0}, std::size_t{7}, std::size_t{60}}) {
    const std::string shown = lapwright::quoted(text, limit);
    require(clean(shown));
    require(shown.size() >= 2 && shown.front() == '"' && shown.back() == '"');
    require(shown.size() <=
            4 * limit + 3 + 2);  // each byte kept becomes four at most; then "…" and the quotes
  }
  const std::string line =
      lapwright::to_line({lapwright::FaultCode::bad_choice, text, {3, 14}, text, text, text});
  require(clean(line));
  require(line.find("bad-choice") != std::string::npos);
  return 0;
}
