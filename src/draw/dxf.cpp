// Group codes: the DXF reference for Release 12 (AC1009).
#include <lapwright/draw/dxf.h>

#include "contour.h"
#include "face.h"
#include "text_out.h"

#include <lapwright/draw/expand.h>
#include <lapwright/draw/font.h>

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace lapwright::draw {
namespace {

// Printable ASCII as it is, all else as \U+XXXX; so too the characters that would start a code of their own.
std::string dxf_text(std::string_view text) {
  std::string out;
  char32_t before = 0;
  for (char32_t c : kept_characters(text)) {
    if (c > 0xFFFF) c = kReplacement;  // \U+ has four digits
    const bool code = c == U'\\' || c == U'^' || (c == U'%' && before == U'%');
    if (c >= 0x20 && c < 0x7F && !code) {
      out.push_back(static_cast<char>(c));
    } else {
      out += fmt::format("\\U+{:04X}", static_cast<std::uint32_t>(c));
    }
    before = c;
  }
  return out;
}

std::string upper(std::string_view name) {
  std::string out;
  for (const char c : name) out.push_back(c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c);
  return out;
}

bool is_circle(const Contour& c) {
  return c.closed && c.vertices.size() == 2 && c.vertices[0].bulge == c.vertices[1].bulge &&
         (c.vertices[0].bulge == 1 || c.vertices[0].bulge == -1);
}

bool is_straight(const Contour& c) {
  return std::all_of(c.vertices.begin(), c.vertices.end(), [](const Vertex& v) { return v.bulge == 0; });
}

class DxfWriter {
 public:
  std::string write(const Drawing& drawing, std::string_view title) {
    const std::vector<Plain> plains = expand(drawing);
    for (const Plain& plain : plains) {
      std::visit([&](const auto& thing) { used_[static_cast<std::size_t>(thing.layer)] = true; }, plain);
    }
    if (!title.empty()) group(999, dxf_text(title));
    put_header(extents(drawing));
    put_tables();
    section("ENTITIES");
    for (const Plain& plain : plains) {
      std::visit([&](const auto& thing) { put(thing); }, plain);
    }
    group(0, "ENDSEC");
    group(0, "EOF");
    return std::move(out_);
  }

 private:
  void group(int code, std::string_view value) { out_ += fmt::format("{:>3}\n{}\n", code, value); }
  void group(int code, int value) { group(code, fmt::format("{}", value)); }
  void group(int code, double value) { group(code, trimmed(value, 6)); }
  void point(int code, Point p) {
    group(code, p.x);
    group(code + 10, p.y);
    group(code + 20, 0.0);
  }
  void section(std::string_view name) {
    group(0, "SECTION");
    group(2, name);
  }

  void put_header(const Box& box) {
    section("HEADER");
    group(9, "$ACADVER");
    group(1, "AC1009");
    group(9, "$DWGCODEPAGE");
    group(3, "ANSI_1252");
    group(9, "$INSUNITS");
    group(70, 4);  // millimetres; later than R12, but readers that know it heed it
    group(9, "$MEASUREMENT");
    group(70, 1);  // metric
    group(9, "$LTSCALE");
    group(40, 1.0);
    group(9, "$EXTMIN");
    point(10, box.empty() ? Point{} : Point{box.left, box.bottom});
    group(9, "$EXTMAX");
    point(10, box.empty() ? Point{} : Point{box.right, box.top});
    group(0, "ENDSEC");
  }

  void put_tables() {
    section("TABLES");
    group(0, "TABLE");
    group(2, "LTYPE");
    group(70, 4);
    put_line_type("CONTINUOUS", "Solid", {});
    for (const LineKind kind : {LineKind::fold, LineKind::hidden, LineKind::axis}) {
      const LineLook& look = look_of(kind);
      put_line_type(upper(look.name), look.name, look.dash);
    }
    group(0, "ENDTAB");
    group(0, "TABLE");
    group(2, "LAYER");
    group(70, kLayers + 1);
    put_layer("0");
    for (int i = 0; i < kLayers; ++i) {
      if (used_[static_cast<std::size_t>(i)]) put_layer(upper(name_of(static_cast<Layer>(i))));
    }
    group(0, "ENDTAB");
    group(0, "TABLE");
    group(2, "STYLE");
    group(70, 2);
    put_style("STANDARD", "DejaVuSans.ttf");
    put_style("BOLD", "DejaVuSans-Bold.ttf");
    group(0, "ENDTAB");
    group(0, "ENDSEC");
  }

  void put_line_type(std::string_view name, std::string_view words, const std::array<double, 4>& dash) {
    double total = 0;
    int pieces = 0;
    for (const double piece : dash) {
      total += piece;
      if (piece > 0) ++pieces;
    }
    group(0, "LTYPE");
    group(2, name);
    group(70, 0);
    group(3, words);
    group(72, 65);
    group(73, pieces);
    group(40, total);
    for (int i = 0; i < pieces; ++i) group(49, dash[static_cast<std::size_t>(i)] * (i % 2 == 0 ? 1 : -1));
  }

  void put_layer(std::string_view name) {
    group(0, "LAYER");
    group(2, name);
    group(70, 0);
    group(62, 7);  // black on white paper: meaning lies in the layer and the line type, not in colour
    group(6, "CONTINUOUS");
  }

  void put_style(std::string_view name, std::string_view font) {
    group(0, "STYLE");
    group(2, name);
    group(70, 0);
    group(40, 0.0);
    group(41, 1.0);
    group(50, 0.0);
    group(71, 0);
    group(42, 2.5);
    group(3, font);
    group(4, "");
  }

  void entity(std::string_view type, Layer layer, std::string_view line_type = {}) {
    group(0, type);
    group(8, upper(name_of(layer)));
    if (!line_type.empty()) group(6, line_type);
  }

  void put(const PlainPath& path) {
    const std::string line_type = path.dashed ? upper(look_of(path.kind).name) : std::string{};
    for (const Contour& contour : path.contours) {
      if (path.fill && *path.fill < 0.5) put_solid(contour, path.layer);
      if (path.weight > 0) put_contour(contour, path.layer, line_type);
    }
  }

  // R12 fills only triangles and quadrangles: arrow heads and the fields of bars.
  void put_solid(const Contour& contour, Layer layer) {
    const std::size_t n = contour.vertices.size();
    if (!contour.closed || !is_straight(contour) || (n != 3 && n != 4)) return;
    entity("SOLID", layer);
    const auto at = [&](std::size_t i) { return contour.vertices[i].at; };
    point(10, at(0));
    point(11, at(1));
    point(12, at(n - 1));  // the third and fourth corner come crosswise
    point(13, at(2));
  }

  void put_contour(const Contour& contour, Layer layer, const std::string& line_type) {
    const std::vector<Vertex>& v = contour.vertices;
    if (v.size() < 2) return;
    if (is_circle(contour)) {
      entity("CIRCLE", layer, line_type);
      point(10, middle_of(v[0].at, v[1].at));
      group(40, hypotenuse(v[1].at.x - v[0].at.x, v[1].at.y - v[0].at.y) / 2);
      return;
    }
    if (!contour.closed && v.size() == 2 && v[0].bulge == 0) {
      entity("LINE", layer, line_type);
      point(10, v[0].at);
      point(11, v[1].at);
      return;
    }
    entity("POLYLINE", layer, line_type);
    group(66, 1);
    point(10, {});
    group(70, contour.closed ? 1 : 0);
    for (const Vertex& vertex : v) {
      entity("VERTEX", layer);
      point(10, vertex.at);
      if (vertex.bulge != 0) group(42, trimmed(vertex.bulge, 12));
    }
    entity("SEQEND", layer);
  }

  // "Fit" between both ends of the baseline: whatever face the reader has, the words keep their length.
  void put(const PlainText& text) {
    const std::string words = dxf_text(text.text);
    if (words.empty()) return;
    const Point end = text.at + direction(text.rotation) * text.width;
    entity("TEXT", text.layer);
    point(10, text.at);
    group(40, cap_height(text.size));
    group(1, words);
    group(50, text.rotation);
    group(7, text.weight == Weight::bold ? "BOLD" : "STANDARD");
    group(72, 5);
    point(11, end);
  }

  std::string out_;
  std::array<bool, kLayers> used_{};
};

}  // namespace

std::string write_dxf(const Drawing& drawing, std::string_view title) {
  return DxfWriter().write(drawing, title);
}

}  // namespace lapwright::draw
