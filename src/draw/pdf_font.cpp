#include "pdf_font.h"

#include "text_out.h"
#include "utf8.h"

#include <lapwright/draw/font.h>

#include <fmt/format.h>

#include <algorithm>

namespace lapwright::draw {

std::string utf16_hex(char32_t c) {
  if (c < 0x10000) return fmt::format("{:04X}", static_cast<std::uint32_t>(c));
  const std::uint32_t rest = static_cast<std::uint32_t>(c) - 0x10000U;
  return fmt::format("{:04X}{:04X}", 0xD800U + (rest >> 10U), 0xDC00U + (rest & 0x3FFU));
}

void PdfFont::use(const std::vector<char32_t>& characters) {
  characters_.insert(characters_.end(), characters.begin(), characters.end());
  if (characters_.size() > 100000) settle();
}

void PdfFont::settle() {
  std::sort(characters_.begin(), characters_.end());
  characters_.erase(std::unique(characters_.begin(), characters_.end()), characters_.end());
  // Codes have two bytes; a document with more characters than that is not an honest one, and what is beyond
  // shows as code 0.
  if (characters_.size() > 0xFFFE) characters_.resize(0xFFFE);
  std::vector<std::uint16_t> glyphs;
  glyphs.reserve(characters_.size());
  for (const char32_t c : characters_) glyphs.push_back(glyph(c));
  file_ = face_.subset(glyphs);
}

std::uint16_t PdfFont::glyph(char32_t c) const {
  const std::uint16_t own = c == kBadByte ? std::uint16_t{0} : face_.glyph_of(c);
  return own != 0 ? own : face_.glyph_of(kReplacement);
}

std::string PdfFont::codes_hex(const std::vector<char32_t>& characters) const {
  std::string out;
  for (const char32_t c : characters) {
    const auto found = std::lower_bound(characters_.begin(), characters_.end(), c);
    const std::int64_t code = found != characters_.end() && *found == c ? found - characters_.begin() + 1 : 0;
    out += fmt::format("{:04X}", code);
  }
  return out;
}

std::string PdfFont::name() const {
  std::uint32_t hash = 2166136261U;  // FNV-1a of the subset
  for (const char c : file_) hash = (hash ^ static_cast<std::uint8_t>(c)) * 16777619U;
  std::string tag;
  for (int i = 0; i < 6; ++i) {
    tag.push_back(static_cast<char>('A' + hash % 26U));
    hash /= 26U;
  }
  return tag + (weight_ == Weight::bold ? "+DejaVuSans-Bold" : "+DejaVuSans");
}

std::string PdfFont::file() const {
  return file_;
}

std::string PdfFont::thousandths(int units) const {
  return trimmed(static_cast<double>(units) * 1000.0 / face_.units_per_em(), 3);
}

std::string PdfFont::widths() const {
  std::string out = "[1 [";
  const char* gap = "";
  for (const char32_t c : characters_) {
    out += gap + thousandths(face_.advance(glyph(c)));
    gap = " ";
  }
  return out + "]]";
}

std::string PdfFont::glyph_map() const {
  std::string out(2, '\0');
  for (const char32_t c : characters_) {
    const std::uint16_t g = glyph(c);
    out.push_back(static_cast<char>(static_cast<std::uint8_t>(g >> 8)));
    out.push_back(static_cast<char>(static_cast<std::uint8_t>(g & 0xFF)));
  }
  return out;
}

std::string PdfFont::to_unicode() const {
  std::string out =
      "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
      "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
  constexpr std::size_t kBlock = 100;  // the most a block may hold
  for (std::size_t from = 0; from < characters_.size(); from += kBlock) {
    const std::size_t to = std::min(from + kBlock, characters_.size());
    out += fmt::format("{} beginbfchar\n", to - from);
    for (std::size_t i = from; i < to; ++i)
      out += fmt::format("<{:04X}> <{}>\n", i + 1, utf16_hex(characters_[i]));
    out += "endbfchar\n";
  }
  return out + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

std::string PdfFont::descriptor(int file_object) const {
  std::string box;
  for (std::size_t side = 0; side < 4; ++side) box += (side > 0 ? " " : "") + thousandths(face_.box(side));
  // Flag 4: symbolic, as a composite font with its own codes is. The stem widths are measured off the letter
  // l.
  return fmt::format(
      "<< /Type /FontDescriptor /FontName /{} /Flags 4 /FontBBox [{}] /ItalicAngle 0 /Ascent {} /Descent {} "
      "/CapHeight {} /StemV {} /FontFile2 {} 0 R >>",
      name(), box, thousandths(face_.ascent()), thousandths(face_.descent()),
      thousandths(face_.glyph_top(face_.glyph_of(U'H'))), weight_ == Weight::bold ? 171 : 90, file_object);
}

}  // namespace lapwright::draw
