#include <lapwright/draw/svg.h>

#include "contour.h"
#include "face.h"
#include "text_out.h"
#include "utf8.h"

#include <lapwright/draw/expand.h>
#include <lapwright/draw/font.h>

#include <array>
#include <cmath>

namespace lapwright::draw {
namespace {

// Text for XML content and attribute values alike; what XML may not hold is dropped by kept_characters().
std::string escaped(std::string_view text) {
  std::string out;
  for (const char32_t c : kept_characters(text)) {
    switch (c) {
      case U'&':
        out += "&amp;";
        break;
      case U'<':
        out += "&lt;";
        break;
      case U'>':
        out += "&gt;";
        break;
      case U'"':
        out += "&quot;";
        break;
      case U'\'':
        out += "&#39;";
        break;
      default:
        append_utf8(out, c);
    }
  }
  return out;
}

class SvgWriter {
 public:
  SvgWriter(const Box& view, const SvgOptions& options) : view_(view), options_(options) {}

  std::string write(const Drawing& drawing, std::string_view title) {
    if (options_.xml_header) out_ += "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    const std::string width = mm(view_.width());
    const std::string height = mm(view_.height());
    out_ += "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + width + "mm\" height=\"" + height +
            "mm\" viewBox=\"0 0 " + width + ' ' + height + "\" role=\"img\"";
    if (options_.scale > 0) {
      out_ += " data-left=\"" + mm(view_.left) + "\" data-top=\"" + mm(view_.top) + "\" data-scale=\"" +
              trimmed(options_.scale, 8) + '"';
    }
    if (!title.empty()) out_ += " aria-label=\"" + escaped(title) + '"';
    out_ += ">\n";
    if (!title.empty()) out_ += "<title>" + escaped(title) + "</title>\n";
    if (options_.white_ground) {
      out_ += "<rect class=\"paper\" width=\"" + width + "\" height=\"" + height + "\" fill=\"" +
              escaped(options_.paper) + "\"/>\n";
    }
    for (const Plain& plain : expand(drawing)) {
      std::visit([&](const auto& thing) { put(thing); }, plain);
    }
    close_group();
    out_ += "</svg>\n";
    return std::move(out_);
  }

 private:
  // SVG runs y down.
  Point down(Point p) const { return {p.x - view_.left, view_.top - p.y}; }

  std::string grey(double level) const {
    if (level <= 0) return escaped(options_.ink);
    if (level >= 1) return escaped(options_.paper);
    const std::string value = trimmed(std::floor(level * 255 + 0.5), 0);
    return "rgb(" + value + ',' + value + ',' + value + ')';
  }

  void close_group() {
    if (open_) out_ += "</g>\n";
    open_ = false;
  }

  void enter(Layer layer) {
    if (open_ && layer == layer_) return;
    close_group();
    const int run = ++runs_[static_cast<std::size_t>(layer)];
    const std::string name(name_of(layer));
    out_ += "<g id=\"" + escaped(options_.id_prefix) + name +
            (run > 1 ? '-' + trimmed(run, 0) : std::string{}) + "\" class=\"layer-" + name +
            "\" fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n";
    open_ = true;
    layer_ = layer;
  }

  std::string tagged(const std::string& tag) const {
    return tag.empty() ? std::string{} : " data-tag=\"" + escaped(tag) + '"';
  }

  void put(const PlainPath& path) {
    enter(path.layer);
    out_ += "<path class=\"" + std::string(path.look) + '"' + tagged(path.tag);
    if (path.fill) out_ += " fill=\"" + grey(*path.fill) + "\" fill-rule=\"evenodd\"";
    if (path.weight > 0) {
      out_ += " stroke=\"" + escaped(options_.ink) + "\" stroke-width=\"" + mm(path.weight) + '"';
      if (path.dashed) {
        out_ += " stroke-linecap=\"butt\" stroke-dasharray=\"";
        const char* gap = "";
        for (const double piece : look_of(path.kind).dash) {
          if (piece <= 0) continue;
          out_ += gap + mm(piece);
          gap = " ";
        }
        out_ += '"';
      }
    }
    out_ += " d=\"";
    for (const Contour& contour : path.contours) put(contour);
    out_ += "\"/>\n";
  }

  void put(const Contour& contour) {
    const std::size_t n = contour.vertices.size();
    if (n == 0) return;
    out_ += 'M' + pair(down(contour.vertices[0].at));
    const std::size_t legs = contour.closed ? n : n - 1;
    for (std::size_t i = 0; i < legs; ++i) {
      const Vertex& from = contour.vertices[i];
      const Point to = contour.vertices[(i + 1) % n].at;
      if (from.bulge != 0 && !(from.at == to)) {
        const std::string radius = mm(arc_radius(from.at, to, from.bulge));
        // Anticlockwise with y up is SVG's sweep 0 with y down.
        out_ += 'A' + radius + ' ' + radius + " 0 " + (std::fabs(from.bulge) > 1 ? '1' : '0') + ' ' +
                (from.bulge > 0 ? '0' : '1') + ' ' + pair(down(to));
      } else if (i + 1 < n) {
        out_ += 'L' + pair(down(to));
      }
    }
    if (contour.closed) out_ += 'Z';
  }

  void put(const PlainText& text) {
    enter(text.layer);
    const Point at = down(text.at);
    out_ += "<text" + tagged(text.tag) + " x=\"" + mm(at.x) + "\" y=\"" + mm(at.y) + '"';
    if (text.rotation != 0) {
      out_ += " transform=\"rotate(" + trimmed(-text.rotation, 6) + ' ' + pair(at) + ")\"";
    }
    out_ += " font-family=\"'DejaVu Sans',Verdana,sans-serif\" font-size=\"" + mm(text.size) + '"';
    if (text.weight == Weight::bold) out_ += " font-weight=\"bold\"";
    // Whatever face the viewer has, the line keeps the length that the page was composed with.
    out_ += " textLength=\"" + mm(text.width) + "\" lengthAdjust=\"spacingAndGlyphs\" fill=\"" +
            escaped(options_.ink) + "\" xml:space=\"preserve\">" + escaped(text.text) + "</text>\n";
  }

  Box view_;
  const SvgOptions& options_;
  std::string out_;
  std::array<int, kLayers> runs_{};
  Layer layer_ = Layer::cut;
  bool open_ = false;
};

}  // namespace

std::string write_svg(const Page& page, const SvgOptions& options) {
  return SvgWriter({0, 0, page.width, page.height}, options).write(page.drawing, page.title);
}

std::string write_svg(const Drawing& drawing, std::string_view title, double margin,
                      const SvgOptions& options) {
  Box view = extents(drawing);
  if (view.empty()) view = {0, 0, 0, 0};
  view = {view.left - margin, view.bottom - margin, view.right + margin, view.top + margin};
  return SvgWriter(view, options).write(drawing, title);
}

}  // namespace lapwright::draw
