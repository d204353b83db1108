// Layout of the tables: the OpenType specification, chapters cmap (format 4), glyf, head, hhea, hmtx, loca,
// maxp.
#include "truetype.h"

#include <algorithm>
#include <cstddef>
#include <string_view>

namespace lapwright::draw {
namespace {

std::uint16_t u16(Bytes b, std::size_t at) {
  if (at + 2 > b.size()) return 0;
  return static_cast<std::uint16_t>((b[at] << 8) | b[at + 1]);
}
std::int16_t i16(Bytes b, std::size_t at) {
  return static_cast<std::int16_t>(u16(b, at));
}
std::uint32_t u32(Bytes b, std::size_t at) {
  return (static_cast<std::uint32_t>(u16(b, at)) << 16U) | u16(b, at + 2);
}
Bytes part(Bytes b, std::size_t at, std::size_t length) {
  if (at > b.size() || length > b.size() - at) return {};
  return b.subspan(at, length);
}

void put16(std::string& out, std::uint32_t v) {
  out.push_back(static_cast<char>(static_cast<std::uint8_t>(v >> 8U)));
  out.push_back(static_cast<char>(static_cast<std::uint8_t>(v)));
}
void put32(std::string& out, std::uint32_t v) {
  put16(out, v >> 16U);
  put16(out, v);
}
void put_bytes(std::string& out, Bytes b) {
  for (const unsigned char c : b) out.push_back(static_cast<char>(c));
}
std::uint32_t checksum(std::string_view table) {
  std::uint32_t sum = 0;
  for (std::size_t i = 0; i < table.size(); ++i) {
    sum += static_cast<std::uint32_t>(static_cast<std::uint8_t>(table[i])) << (8U * (3U - i % 4U));
  }
  return sum;
}

// Flags of a composite glyph's component.
constexpr unsigned kWords = 0x0001;
constexpr unsigned kScale = 0x0008;
constexpr unsigned kMore = 0x0020;
constexpr unsigned kTwoScales = 0x0040;
constexpr unsigned kMatrix = 0x0080;

void take_components(Bytes glyph, std::vector<std::uint16_t>& out) {
  if (glyph.size() < 10 || i16(glyph, 0) >= 0) return;
  std::size_t at = 10;
  unsigned flags = kMore;
  while ((flags & kMore) != 0 && at + 4 <= glyph.size()) {
    flags = u16(glyph, at);
    out.push_back(u16(glyph, at + 2));
    at += 4 + ((flags & kWords) != 0 ? 4U : 2U);
    if ((flags & kScale) != 0) at += 2;
    if ((flags & kTwoScales) != 0) at += 4;
    if ((flags & kMatrix) != 0) at += 8;
  }
}

}  // namespace

Bytes TrueType::table(std::string_view tag) const {
  const std::uint16_t count = u16(file_, 4);
  for (std::size_t i = 0; i < count; ++i) {
    const Bytes row = part(file_, 12 + 16 * i, 16);
    if (row.empty()) return {};
    if (std::equal(tag.begin(), tag.end(), row.begin())) return part(file_, u32(row, 8), u32(row, 12));
  }
  return {};
}

std::optional<TrueType> TrueType::read(Bytes file) {
  TrueType face;
  face.file_ = file;
  const Bytes head = face.table("head");
  const Bytes hhea = face.table("hhea");
  const Bytes maxp = face.table("maxp");
  const Bytes cmap = face.table("cmap");
  face.hmtx_ = face.table("hmtx");
  face.loca_ = face.table("loca");
  face.glyf_ = face.table("glyf");
  if (head.size() < 54 || hhea.size() < 36 || maxp.size() < 6 || cmap.size() < 4) return std::nullopt;
  face.units_per_em_ = u16(head, 18);
  for (std::size_t side = 0; side < 4; ++side) face.box_[side] = i16(head, 36 + 2 * side);
  face.long_loca_ = u16(head, 50) != 0;
  face.ascent_ = i16(hhea, 4);
  face.descent_ = i16(hhea, 6);
  face.metric_count_ = u16(hhea, 34);
  face.glyph_count_ = u16(maxp, 4);
  if (face.units_per_em_ == 0 || face.metric_count_ == 0 || face.glyph_count_ == 0) return std::nullopt;
  if (face.metric_count_ > face.glyph_count_ || face.hmtx_.size() < std::size_t{4} * face.metric_count_)
    return std::nullopt;
  const std::size_t loca_entry = face.long_loca_ ? 4 : 2;
  if (face.loca_.size() < loca_entry * (face.glyph_count_ + std::size_t{1})) return std::nullopt;
  for (std::size_t i = 0; i < u16(cmap, 2) && face.cmap_.empty(); ++i) {
    const std::size_t row = 4 + 8 * i;
    const std::uint32_t at = u32(cmap, row + 4);
    const bool unicode = u16(cmap, row) == 0 || (u16(cmap, row) == 3 && u16(cmap, row + 2) == 1);
    if (unicode && u16(cmap, at) == 4) face.cmap_ = part(cmap, at, u16(cmap, at + 2));
  }
  if (face.cmap_.size() < 16) return std::nullopt;
  return face;
}

std::uint16_t TrueType::glyph_of(char32_t code_point) const {
  if (code_point > 0xFFFF) return 0;
  const auto c = static_cast<std::uint16_t>(code_point);
  const std::size_t segments = u16(cmap_, 6) / 2U;
  const std::size_t ends = 14;
  const std::size_t starts = ends + 2 * segments + 2;
  const std::size_t deltas = starts + 2 * segments;
  const std::size_t offsets = deltas + 2 * segments;
  for (std::size_t s = 0; s < segments; ++s) {
    if (u16(cmap_, ends + 2 * s) < c) continue;
    const std::uint16_t start = u16(cmap_, starts + 2 * s);
    if (start > c) return 0;
    const std::uint16_t delta = u16(cmap_, deltas + 2 * s);
    const std::uint16_t offset = u16(cmap_, offsets + 2 * s);
    std::uint32_t glyph = c;
    if (offset != 0) {
      glyph = u16(cmap_, offsets + 2 * s + offset + 2U * static_cast<std::size_t>(c - start));
      if (glyph == 0) return 0;
    }
    glyph = (glyph + delta) & 0xFFFFU;
    return glyph < glyph_count_ ? static_cast<std::uint16_t>(glyph) : std::uint16_t{0};
  }
  return 0;
}

std::uint16_t TrueType::advance(std::uint16_t glyph) const {
  const std::size_t last = metric_count_ - std::size_t{1};
  return u16(hmtx_, 4 * std::min<std::size_t>(glyph, last));
}

Bytes TrueType::glyph_bytes(std::uint16_t glyph) const {
  if (glyph >= glyph_count_) return {};
  const std::size_t g = glyph;
  const std::size_t from = long_loca_ ? u32(loca_, 4 * g) : std::size_t{2} * u16(loca_, 2 * g);
  const std::size_t to = long_loca_ ? u32(loca_, 4 * g + 4) : std::size_t{2} * u16(loca_, 2 * g + 2);
  return to > from ? part(glyf_, from, to - from) : Bytes{};
}

std::int16_t TrueType::glyph_top(std::uint16_t glyph) const {
  return i16(glyph_bytes(glyph), 8);
}
std::int16_t TrueType::glyph_bottom(std::uint16_t glyph) const {
  return i16(glyph_bytes(glyph), 4);
}

std::string TrueType::subset(const std::vector<std::uint16_t>& glyphs) const {
  std::vector<bool> kept(glyph_count_, false);
  std::vector<std::uint16_t> open = glyphs;
  open.push_back(0);
  while (!open.empty()) {
    const std::uint16_t glyph = open.back();
    open.pop_back();
    if (glyph >= glyph_count_ || kept[glyph]) continue;
    kept[glyph] = true;
    take_components(glyph_bytes(glyph), open);
  }
  std::string glyf;
  std::string loca;
  for (std::uint16_t glyph = 0; glyph < glyph_count_; ++glyph) {
    put32(loca, static_cast<std::uint32_t>(glyf.size()));
    if (!kept[glyph]) continue;
    put_bytes(glyf, glyph_bytes(glyph));
    while (glyf.size() % 4 != 0) glyf.push_back('\0');
  }
  put32(loca, static_cast<std::uint32_t>(glyf.size()));
  std::string head;
  put_bytes(head, table("head"));
  head.replace(8, 4, 4, '\0');     // the checksum adjustment, filled in below
  head.replace(50, 2, "\0\1", 2);  // long offsets in loca

  struct Table {
    std::string_view tag;
    std::string bytes;
  };
  std::vector<Table> tables{{"glyf", glyf}, {"head", head}, {"hhea", {}},
                            {"hmtx", {}},   {"loca", loca}, {"maxp", {}}};
  put_bytes(tables[2].bytes, table("hhea"));
  put_bytes(tables[3].bytes, hmtx_);
  put_bytes(tables[5].bytes, table("maxp"));

  std::string out;
  put32(out, 0x00010000);
  put16(out, 6);
  put16(out, 64);  // search range, selector and shift for six tables
  put16(out, 2);
  put16(out, 32);
  std::uint32_t at = 12 + 16 * 6;
  std::size_t head_at = 0;
  for (const Table& t : tables) {
    for (const char c : t.tag) out.push_back(c);
    put32(out, checksum(t.bytes));
    put32(out, at);
    put32(out, static_cast<std::uint32_t>(t.bytes.size()));
    if (t.tag == "head") head_at = at;
    at += static_cast<std::uint32_t>((t.bytes.size() + 3) / 4 * 4);
  }
  for (const Table& t : tables) {
    out += t.bytes;
    while (out.size() % 4 != 0) out.push_back('\0');
  }
  std::string adjustment;
  put32(adjustment, 0xB1B0AFBAU - checksum(out));
  out.replace(head_at + 8, 4, adjustment);
  return out;
}

}  // namespace lapwright::draw
