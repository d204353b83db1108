#include <lapwright/draw/font.h>

#include "face.h"
#include "font_data.h"
#include "utf8.h"

#include <algorithm>
#include <cassert>

namespace lapwright::draw {

Bytes face_bytes(Weight weight) {
  return weight == Weight::bold ? font_data::bold() : font_data::regular();
}

TrueType face_of(Weight weight) {
  const std::optional<TrueType> face = TrueType::read(face_bytes(weight));
  assert(face.has_value());  // made by our own build
  return face.value_or(TrueType{});
}

std::vector<char32_t> kept_characters(std::string_view text) {
  std::vector<char32_t> out;
  while (!text.empty()) {
    const char32_t c = take_code_point(text);
    if (is_dropped(c)) continue;
    out.push_back(is_break(c) ? U' ' : c);
  }
  return out;
}

std::vector<char32_t> drawn_characters(std::string_view text) {
  // Both weights hold the same characters, so that a text does not change when it is set bold.
  const TrueType face = face_of(Weight::regular);
  std::vector<char32_t> out = kept_characters(text);
  for (char32_t& c : out) {
    if (c == kBadByte || face.glyph_of(c) == 0) c = kReplacement;
  }
  return out;
}

double width_of(const TrueType& face, const std::vector<char32_t>& characters, double size) {
  std::int64_t units = 0;
  for (const char32_t c : characters) units += face.advance(face.glyph_of(c));
  return static_cast<double>(units) * size / face.units_per_em();
}

double text_width(std::string_view text, double size, Weight weight) {
  return width_of(face_of(weight), drawn_characters(text), size);
}

double cap_height(double size) {
  const TrueType face = face_of(Weight::regular);
  return size * face.glyph_top(face.glyph_of(U'H')) / face.units_per_em();
}

double descender_depth(double size) {
  const TrueType face = face_of(Weight::regular);
  return -size * face.descent() / face.units_per_em();
}

double line_height(double size) {
  return size * 1.25;
}

std::string missing_glyphs(std::string_view text) {
  const TrueType face = face_of(Weight::regular);
  std::vector<char32_t> missing;
  std::string out;
  for (const char32_t c : kept_characters(text)) {
    if (c != kBadByte && face.glyph_of(c) != 0) continue;
    if (std::find(missing.begin(), missing.end(), c) != missing.end()) continue;
    missing.push_back(c);
    append_utf8(out, c);
  }
  return out;
}

std::string_view font_file(Weight weight) {
  const Bytes bytes = face_bytes(weight);
  const void* start = bytes.data();
  return {static_cast<const char*>(start), bytes.size()};
}

}  // namespace lapwright::draw
