// Reads the few tables of a TrueType file that measuring and embedding need. Never reads outside the bytes
// given; a broken file gives no face.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::draw {

using Bytes = std::span<const unsigned char>;

class TrueType {
 public:
  static std::optional<TrueType> read(Bytes file);

  std::uint16_t glyph_of(char32_t code_point) const;  // 0: none
  std::uint16_t advance(std::uint16_t glyph) const;   // font units
  std::uint16_t units_per_em() const { return units_per_em_; }
  std::uint16_t glyph_count() const { return glyph_count_; }
  std::int16_t ascent() const { return ascent_; }
  std::int16_t descent() const { return descent_; }                // below the baseline: negative
  std::int16_t box(std::size_t side) const { return box_[side]; }  // x least, y least, x most, y most
  std::int16_t glyph_top(std::uint16_t glyph) const;               // 0 for an empty glyph
  std::int16_t glyph_bottom(std::uint16_t glyph) const;

  // A TrueType file with the outlines of `glyphs` and of what they are composed of; every other glyph is
  // empty, all glyph numbers stay. Holds what PDF wants: glyf, head, hhea, hmtx, loca, maxp.
  std::string subset(const std::vector<std::uint16_t>& glyphs) const;

 private:
  Bytes table(std::string_view tag) const;
  Bytes glyph_bytes(std::uint16_t glyph) const;

  Bytes file_;
  Bytes cmap_;  // the format 4 subtable
  Bytes hmtx_;
  Bytes loca_;
  Bytes glyf_;
  std::uint16_t units_per_em_ = 1000;
  std::uint16_t glyph_count_ = 0;
  std::uint16_t metric_count_ = 0;
  std::int16_t ascent_ = 0;
  std::int16_t descent_ = 0;
  std::array<std::int16_t, 4> box_{};
  bool long_loca_ = false;
};

}  // namespace lapwright::draw
