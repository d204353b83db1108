// Objects and operators: ISO 32000-1 (PDF 1.7).
#include <lapwright/draw/pdf.h>

#include "contour.h"
#include "deflate.h"
#include "pdf_font.h"
#include "text_out.h"
#include "utf8.h"

#include <lapwright/draw/expand.h>

#include <fmt/format.h>

#include <array>

namespace lapwright::draw {
namespace {

constexpr double kPointsPerMm = 72.0 / 25.4;

std::string text_string(std::string_view text) {
  std::string out = "<FEFF";
  for (const char32_t c : kept_characters(text)) out += utf16_hex(c);
  return out + '>';
}

// Keeps only characters that mean nothing to PDF syntax.
std::string plain_word(std::string_view word) {
  std::string out;
  for (const char c : word) {
    const bool fine = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                      c == '-' || c == '+' || c == '\'';
    if (fine) out.push_back(c);
  }
  return out;
}

// Operators that paint one page, in millimetres.
class Content {
 public:
  explicit Content(const std::array<PdfFont, 2>& fonts) : fonts_(fonts) {
    out_ = trimmed(kPointsPerMm, 9) + " 0 0 " + trimmed(kPointsPerMm, 9) + " 0 0 cm\n1 j\n";
  }

  void put(const PlainPath& path) {
    if (path.fill) set(fill_, mm(*path.fill) + " g\n");
    if (path.weight > 0) {
      set(weight_, mm(path.weight) + " w\n");
      std::string dash = "1 J [] 0 d\n";
      if (path.dashed) {
        dash = "0 J [";
        const char* gap = "";
        for (const double piece : look_of(path.kind).dash) {
          if (piece <= 0) continue;
          dash += gap + mm(piece);
          gap = " ";
        }
        dash += "] 0 d\n";
      }
      set(dash_, dash);
    }
    for (const Contour& contour : path.contours) put(contour);
    out_ += path.fill ? (path.weight > 0 ? "B*\n" : "f*\n") : "S\n";
  }

  void put(const PlainText& text) {
    const std::vector<char32_t> characters = kept_characters(text.text);
    if (characters.empty()) return;
    const std::size_t weight = text.weight == Weight::bold ? 1 : 0;
    set(fill_, "0 g\n");
    const Point d = direction(text.rotation);
    out_ += "BT /F" + trimmed(static_cast<double>(weight), 0) + ' ' + trimmed(text.size, 6) + " Tf " +
            trimmed(d.x, 6) + ' ' + trimmed(d.y, 6) + ' ' + trimmed(-d.y, 6) + ' ' + trimmed(d.x, 6) + ' ' +
            pair(text.at) + " Tm <" + fonts_[weight].codes_hex(characters) + "> Tj ET\n";
  }

  std::string take() { return std::move(out_); }

 private:
  // Says a setting only when it changes.
  void set(std::string& current, std::string wanted) {
    if (current == wanted) return;
    out_ += wanted;
    current = std::move(wanted);
  }

  void put(const Contour& contour) {
    const std::size_t n = contour.vertices.size();
    if (n == 0) return;
    out_ += pair(contour.vertices[0].at) + " m\n";
    const std::size_t legs = contour.closed ? n : n - 1;
    for (std::size_t i = 0; i < legs; ++i) {
      const Vertex& from = contour.vertices[i];
      const Point to = contour.vertices[(i + 1) % n].at;
      if (from.bulge != 0 && !(from.at == to)) {
        put_arc(from.at, to, from.bulge);
      } else if (i + 1 < n) {
        out_ += pair(to) + " l\n";
      }
    }
    if (contour.closed) out_ += "h\n";
  }

  void put_arc(Point a, Point b, double bulge) {
    constexpr double kEighth = 0.1989123673796580;  // tan 11.25°: a cubic takes at most an eighth of a turn
    if (bulge > kEighth * 1.000001 || bulge < -kEighth * 1.000001) {
      const Point m = arc_middle(a, b, bulge);
      put_arc(a, m, half_bulge(bulge));
      put_arc(m, b, half_bulge(bulge));
      return;
    }
    const std::array<Point, 2> controls = arc_controls(a, b, bulge);
    out_ += pair(controls[0]) + ' ' + pair(controls[1]) + ' ' + pair(b) + " c\n";
  }

  const std::array<PdfFont, 2>& fonts_;
  std::string out_;
  std::string fill_ = "0 g\n";  // as a page begins
  std::string weight_;
  std::string dash_;
};

// Numbers objects and knows where each begins.
class Objects {
 public:
  Objects(std::string& out, bool compress) : out_(out), compress_(compress) {}

  int reserve() {
    offsets_.push_back(0);
    return static_cast<int>(offsets_.size());
  }
  void put(int number, const std::string& body) {
    offsets_[static_cast<std::size_t>(number) - 1] = out_.size();
    out_ += fmt::format("{} 0 obj\n{}\nendobj\n", number, body);
  }
  int put(const std::string& body) {
    const int number = reserve();
    put(number, body);
    return number;
  }
  int put_stream(const std::string& bytes, const std::string& entries = {}) {
    const std::string packed = compress_ ? zlib_compressed(bytes) : bytes;
    const char* filter = compress_ ? " /Filter /FlateDecode" : "";
    return put(fmt::format("<< /Length {}{}{} >>\nstream\n", packed.size(), filter, entries) + packed +
               "\nendstream");
  }
  void finish(int catalogue, int info) {
    std::uint64_t hash = 14695981039346656037U;  // FNV-1a of all that stands before
    for (const char c : out_) hash = (hash ^ static_cast<std::uint8_t>(c)) * 1099511628211U;
    const std::string id = fmt::format("<{:016X}{:016X}>", hash, hash * 1099511628211U);
    const std::size_t start = out_.size();
    out_ += fmt::format("xref\n0 {}\n0000000000 65535 f \n", offsets_.size() + 1);
    for (const std::size_t offset : offsets_) out_ += fmt::format("{:010} 00000 n \n", offset);
    out_ +=
        fmt::format("trailer\n<< /Size {} /Root {} 0 R /Info {} 0 R /ID [{} {}] >>\nstartxref\n{}\n%%EOF\n",
                    offsets_.size() + 1, catalogue, info, id, id, start);
  }

 private:
  std::string& out_;
  bool compress_;
  std::vector<std::size_t> offsets_;
};

int put_font(Objects& objects, const PdfFont& font) {
  const std::string file = font.file();
  const int file_object = objects.put_stream(file, fmt::format(" /Length1 {}", file.size()));
  const int descriptor = objects.put(font.descriptor(file_object));
  const int map = objects.put_stream(font.glyph_map());
  const int unicode = objects.put_stream(font.to_unicode());
  const int descendant =
      objects.put(fmt::format("<< /Type /Font /Subtype /CIDFontType2 /BaseFont /{} "
                              "/CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> "
                              "/FontDescriptor {} 0 R /CIDToGIDMap {} 0 R /W {} >>",
                              font.name(), descriptor, map, font.widths()));
  return objects.put(fmt::format(
      "<< /Type /Font /Subtype /Type0 /BaseFont /{} /Encoding /Identity-H /DescendantFonts [{} 0 R] "
      "/ToUnicode {} 0 R >>",
      font.name(), descendant, unicode));
}

// Bookmarks, one a page, for the pages that have a title. 0 if none has.
int put_outline(Objects& objects, const std::vector<Page>& pages, const std::vector<int>& page_objects) {
  std::vector<std::size_t> titled;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    if (!pages[i].title.empty()) titled.push_back(i);
  }
  if (titled.empty()) return 0;
  const int root = objects.reserve();
  std::vector<int> items(titled.size());
  for (int& item : items) item = objects.reserve();
  for (std::size_t k = 0; k < titled.size(); ++k) {
    std::string body = fmt::format("<< /Title {} /Parent {} 0 R /Dest [{} 0 R /Fit]",
                                   text_string(pages[titled[k]].title), root, page_objects[titled[k]]);
    if (k > 0) body += fmt::format(" /Prev {} 0 R", items[k - 1]);
    if (k + 1 < titled.size()) body += fmt::format(" /Next {} 0 R", items[k + 1]);
    objects.put(items[k], body + " >>");
  }
  objects.put(root, fmt::format("<< /Type /Outlines /First {} 0 R /Last {} 0 R /Count {} >>", items.front(),
                                items.back(), items.size()));
  return root;
}

}  // namespace

std::string write_pdf(const Document& document, const PdfOptions& options) {
  std::vector<Page> one_empty;
  if (document.pages.empty()) one_empty.emplace_back();
  const std::vector<Page>& pages = document.pages.empty() ? one_empty : document.pages;

  std::vector<std::vector<Plain>> painted;
  std::array<PdfFont, 2> fonts{PdfFont(Weight::regular), PdfFont(Weight::bold)};
  for (const Page& page : pages) {
    painted.push_back(expand(page.drawing));
    for (const Plain& plain : painted.back()) {
      const auto* text = std::get_if<PlainText>(&plain);
      if (text != nullptr) fonts[text->weight == Weight::bold ? 1 : 0].use(kept_characters(text->text));
    }
  }
  for (PdfFont& font : fonts) font.settle();

  std::string out = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n";
  Objects objects(out, options.compress);
  const int catalogue = objects.reserve();
  const int tree = objects.reserve();
  std::string font_entries;
  for (std::size_t i = 0; i < fonts.size(); ++i) {
    if (fonts[i].used()) font_entries += fmt::format(" /F{} {} 0 R", i, put_font(objects, fonts[i]));
  }
  const int resources = objects.put("<< /Font <<" + font_entries + " >> >>");
  std::vector<int> page_objects;
  std::string kids;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    Content content(fonts);
    for (const Plain& plain : painted[i]) {
      std::visit([&](const auto& thing) { content.put(thing); }, plain);
    }
    const int stream = objects.put_stream(content.take());
    page_objects.push_back(objects.put(fmt::format(
        "<< /Type /Page /Parent {} 0 R /MediaBox [0 0 {} {}] /Resources {} 0 R /Contents {} 0 R >>", tree,
        trimmed(pages[i].width * kPointsPerMm, 4), trimmed(pages[i].height * kPointsPerMm, 4), resources,
        stream)));
    kids += fmt::format("{}{} 0 R", i > 0 ? " " : "", page_objects.back());
  }
  objects.put(tree, fmt::format("<< /Type /Pages /Kids [{}] /Count {} >>", kids, pages.size()));

  const int outline = put_outline(objects, pages, page_objects);
  std::string root = fmt::format("<< /Type /Catalog /Version /1.7 /Pages {} 0 R", tree);
  const std::string language = plain_word(document.language);
  if (!language.empty()) root += " /Lang (" + language + ')';
  root += " /ViewerPreferences << /PrintScaling /None /DisplayDocTitle true >>";
  if (outline != 0) root += fmt::format(" /Outlines {} 0 R", outline);
  objects.put(catalogue, root + " >>");

  std::string info = "<< /Title " + text_string(document.title) + " /Producer (lapwright)";
  const std::string date = plain_word(options.date);
  if (!date.empty()) info += " /CreationDate (D:" + date + ')';
  objects.finish(catalogue, objects.put(info + " >>"));
  return out;
}

}  // namespace lapwright::draw
