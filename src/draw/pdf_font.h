// The faces of one PDF: which characters it uses, and the objects that embed them.
#pragma once

#include "face.h"

#include <string>
#include <string_view>
#include <vector>

namespace lapwright::draw {

// One weight as a PDF composite font. Character codes number the characters in use from 1, so that each keeps
// its own Unicode value even where two share a glyph or the white square stands for it.
class PdfFont {
 public:
  explicit PdfFont(Weight weight) : weight_(weight), face_(face_of(weight)) {}

  void use(const std::vector<char32_t>& characters);
  void settle();  // once all is used, before anything below
  bool used() const { return !characters_.empty(); }

  std::string codes_hex(const std::vector<char32_t>& characters) const;
  std::string name() const;        // with the tag of a subset
  std::string file() const;        // the TrueType bytes
  std::string widths() const;      // the /W array
  std::string glyph_map() const;   // the bytes of /CIDToGIDMap
  std::string to_unicode() const;  // the CMap
  std::string descriptor(int file_object) const;

 private:
  std::uint16_t glyph(char32_t c) const;
  std::string thousandths(int units) const;

  Weight weight_;
  TrueType face_;
  std::vector<char32_t> characters_;  // ascending
  std::string file_;
};

// UTF-16BE in hex, as PDF strings and CMaps want it.
std::string utf16_hex(char32_t c);

}  // namespace lapwright::draw
