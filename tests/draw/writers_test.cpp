// What can be said of the files without a reader; tests/draw/read_back.py has other programs read them.
#include <lapwright/draw/dxf.h>
#include <lapwright/draw/pdf.h>
#include <lapwright/draw/svg.h>

#include "sample.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

namespace {
using namespace lapwright::draw;
using namespace std::string_literals;

std::size_t count(const std::string& where, const std::string& what) {
  std::size_t n = 0;
  for (std::size_t at = where.find(what); at != std::string::npos; at = where.find(what, at + 1)) ++n;
  return n;
}

Page page_saying(std::string words) {
  Page page;
  page.drawing.add(Text{.text = std::move(words), .at = {20, 20}});
  return page;
}

TEST(Svg, escapes_what_a_person_may_type) {
  const std::string nasty = "</text><script>alert('1')</script> & \"q\"";
  Page page = page_saying(nasty);
  page.title = nasty;
  Path box = rectangle(0, 0, 1, 1);
  box.tag = "\"><script>";
  page.drawing.add(box);
  const std::string svg = write_svg(page);
  EXPECT_EQ(count(svg, "<script"), 0U);
  EXPECT_EQ(count(svg, "</text>"), 1U);
  EXPECT_NE(svg.find("&lt;/text&gt;&lt;script&gt;alert(&#39;1&#39;)"), std::string::npos);
  EXPECT_NE(svg.find("data-tag=\"&quot;&gt;&lt;script&gt;\""), std::string::npos);
}

TEST(Svg, drops_controls_and_keeps_other_scripts) {
  const std::string svg = write_svg(page_saying("a\0\x1b\x7f b\u202E \u0416\uFFFF\xff"s));
  EXPECT_NE(svg.find(">a b \u0416\uFFFD</text>"), std::string::npos) << svg;
}

TEST(Svg, paints_in_the_order_of_adding_with_unique_ids) {
  Page page;
  page.drawing.add(line({0, 0}, {1, 0}, LineKind::cut));
  page.drawing.add(line({0, 0}, {1, 0}, LineKind::fold));
  page.drawing.add(line({0, 0}, {1, 0}, LineKind::cut));
  const std::string svg = write_svg(page, {.id_prefix = "p1-"});
  const std::size_t first = svg.find("<g id=\"p1-cut\"");
  const std::size_t second = svg.find("<g id=\"p1-fold\"");
  const std::size_t third = svg.find("<g id=\"p1-cut-2\"");
  ASSERT_NE(third, std::string::npos);
  EXPECT_LT(first, second);
  EXPECT_LT(second, third);
}

TEST(Svg, flips_y_once) {
  Page page{.width = 100, .height = 50};
  page.drawing.add(line({10, 5}, {20, 45}, LineKind::thin));
  EXPECT_NE(write_svg(page).find("d=\"M10 45L20 5\""), std::string::npos);
}

TEST(Svg, free_drawing_is_as_large_as_its_extents) {
  Drawing d;
  d.add(rectangle(100, 200, 30, 20, LineKind::cut));
  const std::string svg = write_svg(d, "t", 5);
  EXPECT_NE(svg.find("viewBox=\"0 0 40.7 30.7\""), std::string::npos) << svg.substr(0, 300);
  EXPECT_NE(write_svg(Drawing{}, "", 5).find("viewBox=\"0 0 10 10\""), std::string::npos);
}

TEST(Svg, ink_can_be_the_page_s_own) {
  const std::string svg =
      write_svg(page_saying("x"), {.white_ground = false, .xml_header = false, .ink = "currentColor"});
  EXPECT_EQ(svg.find("#000"), std::string::npos);
  EXPECT_EQ(svg.find("<rect"), std::string::npos);
  EXPECT_EQ(svg.find("<svg"), 0U);
}

// Every entry of the cross reference table points at its object.
TEST(Pdf, cross_references_are_right) {
  for (const bool compress : {false, true}) {
    const std::string pdf = write_pdf(sample::document(), {.compress = compress});
    const std::size_t start = std::stoul(pdf.substr(pdf.rfind("startxref") + 10));
    ASSERT_EQ(pdf.substr(start, 7), "xref\n0 ");
    const std::size_t size = std::stoul(pdf.substr(start + 7));
    std::size_t row = pdf.find('\n', start + 5) + 1;
    for (std::size_t object = 1; object < size; ++object) {
      row += 20;
      const std::size_t offset = std::stoul(pdf.substr(row, 10));
      const std::string head = std::to_string(object) + " 0 obj\n";
      EXPECT_EQ(pdf.substr(offset, head.size()), head);
    }
  }
}

TEST(Pdf, has_no_date_unless_given_and_the_same_bytes_each_time) {
  const Document document = sample::document();
  const std::string pdf = write_pdf(document);
  EXPECT_EQ(pdf, write_pdf(document));
  EXPECT_EQ(pdf.find("Date"), std::string::npos);
  const std::string dated = write_pdf(document, {.date = "20300131120000Z"});
  EXPECT_NE(dated.find("/CreationDate (D:20300131120000Z)"), std::string::npos);
}

TEST(Pdf, says_no_scaling_and_its_language) {
  const std::string pdf = write_pdf(Document{.title = "t", .language = "en-GB) /Evil (x"});
  EXPECT_NE(pdf.find("/PrintScaling /None"), std::string::npos);
  EXPECT_NE(pdf.find("/Lang (en-GBEvilx)"), std::string::npos);
  EXPECT_EQ(count(pdf, "/Type /Page "), 1U);  // a PDF without pages is none
}

TEST(Pdf, embeds_only_what_is_used) {
  const std::size_t little = write_pdf({.pages = {page_saying("a")}}).size();
  EXPECT_LT(little, 4000U);
  const std::string none = write_pdf({.pages = {Page{}}});
  EXPECT_EQ(none.find("FontFile2"), std::string::npos);
}

TEST(Dxf, is_plain_ascii_whatever_the_text) {
  Drawing d;
  d.add(Text{.text = "é\n%%d ^J \\U+0041 \U0001F600"});
  const std::string dxf = write_dxf(d, "Ø\n0\nEOF");
  for (const char c : dxf) EXPECT_TRUE(c == '\n' || (c >= 0x20 && c < 0x7F));
  EXPECT_NE(dxf.find("\\U+00E9 %\\U+0025d \\U+005EJ \\U+005CU+0041 \\U+25A1\n"), std::string::npos);
  EXPECT_NE(dxf.find("999\n\\U+00D8 0 EOF\n"), std::string::npos);
}

TEST(Dxf, keeps_circles_lines_and_line_types) {
  const std::string dxf = write_dxf(sample::net());
  EXPECT_EQ(count(dxf, "\nCIRCLE\n"), 1U);
  EXPECT_NE(dxf.find("LINE\n  8\nFOLD\n  6\nFOLD\n"), std::string::npos);
  EXPECT_NE(dxf.find(" 42\n0.414213562373\n"), std::string::npos);
}

TEST(Writers, take_names_of_two_hundred_characters) {
  std::string name;
  for (int i = 0; i < 200; ++i) name += i % 3 == 0 ? "é" : "\u4E2D";
  const Page page = page_saying(name);
  EXPECT_NE(write_svg(page).find(name), std::string::npos);
  EXPECT_GT(write_pdf({.title = name, .pages = {page}}).size(), 1000U);
  EXPECT_GT(write_dxf(page.drawing, name).size(), 1000U);
}

TEST(Writers, take_an_empty_page_and_degenerate_paths) {
  Page page;
  page.drawing.add(Path{})
      .add(Path{.contours = {Contour{}}})
      .add(Path{.contours = {Contour{{{{5, 5}, 1}}, true}}});
  page.drawing.add(line({5, 5}, {5, 5})).add(Text{}).add(Chain{}).add(Dimension{});
  Path dot = polygon({{5, 5}, {5, 5}, {5, 5}});
  dot.contours[0].vertices[0].bulge = 1;
  dot.fill = Fill::hatched(HatchKind::brick);
  page.drawing.add(dot);
  for (const std::string& bytes : {write_svg(page), write_pdf({.pages = {page}}), write_dxf(page.drawing)}) {
    EXPECT_EQ(bytes.find("nan"), std::string::npos);
    EXPECT_EQ(bytes.find("inf"), std::string::npos);
  }
}

}  // namespace
