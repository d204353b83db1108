// Making text fit: shortening, smaller sizes, wrapping.
#include <lapwright/draw/font.h>

#include "face.h"
#include "utf8.h"

#include <algorithm>

namespace lapwright::draw {
namespace {

std::string utf8_of(const char32_t* from, const char32_t* to) {
  std::string out;
  for (; from != to; ++from) append_utf8(out, *from);
  return out;
}

// The widths of the characters as they are drawn, one by one: characters outside the font have the square's.
std::vector<double> widths_of(const TrueType& face, const std::vector<char32_t>& characters, double size) {
  std::vector<double> out;
  out.reserve(characters.size());
  const std::uint16_t square = face.glyph_of(kReplacement);
  for (const char32_t c : characters) {
    const std::uint16_t glyph = c == kBadByte ? 0 : face.glyph_of(c);
    out.push_back(size * face.advance(glyph == 0 ? square : glyph) / face.units_per_em());
  }
  return out;
}

void wrap_paragraph(std::string_view text, double width, double size, Weight weight,
                    std::vector<std::string>& out) {
  const TrueType face = face_of(weight);
  const std::vector<char32_t> characters = kept_characters(text);
  const std::vector<double> widths = widths_of(face, characters, size);
  const std::size_t n = characters.size();
  const auto emit = [&](std::size_t from, std::size_t to) {
    while (to > from && characters[to - 1] == U' ') --to;
    out.push_back(utf8_of(characters.data() + from, characters.data() + to));
  };
  std::size_t start = 0;
  std::size_t after_space = 0;  // where the line could be broken; == start: nowhere yet
  double used = 0;
  for (std::size_t i = 0; i < n; ++i) {
    if (characters[i] != U' ' && used + widths[i] > width && i > start) {
      const std::size_t next = after_space > start ? after_space : i;
      emit(start, next);
      start = next;
      after_space = next;
      used = 0;
      for (std::size_t k = start; k < i; ++k) used += widths[k];
      if (used + widths[i] > width && i > start) {  // the word carried over is itself too wide
        emit(start, i);
        start = after_space = i;
        used = 0;
      }
    }
    used += widths[i];
    if (characters[i] == U' ') after_space = i + 1;
  }
  emit(start, n);
}

}  // namespace

std::string shortened(std::string_view text, double width, double size, Weight weight) {
  const TrueType face = face_of(weight);
  const std::vector<char32_t> characters = kept_characters(text);
  const std::vector<double> widths = widths_of(face, characters, size);
  double total = 0;
  for (const double w : widths) total += w;
  if (total <= width) return utf8_of(characters.data(), characters.data() + characters.size());
  double used = widths_of(face, {U'\u2026'}, size)[0];
  if (used > width) return {};
  std::size_t kept = 0;
  while (kept < widths.size() && used + widths[kept] <= width) used += widths[kept++];
  while (kept > 0 && characters[kept - 1] == U' ') --kept;
  return utf8_of(characters.data(), characters.data() + kept) + "\u2026";
}

double size_to_fit(std::string_view text, double width, double size, double least, Weight weight) {
  const double wide = text_width(text, size, weight);
  if (wide <= width) return size;
  return std::max(least, size * width / wide);
}

std::vector<std::string> wrapped(std::string_view text, double width, double size, Weight weight) {
  std::vector<std::string> out;
  while (true) {
    const std::size_t end = text.find('\n');
    wrap_paragraph(text.substr(0, end), width, size, weight, out);
    if (end == std::string_view::npos) return out;
    text.remove_prefix(end + 1);
  }
}

}  // namespace lapwright::draw
