// SVG 1.1, sized in mm, with real text. Layers are groups with id and class, split where painting order wants
// it: "cut", "cut-2", ... Elements carry a class (line kind or hatch) and, if tagged, data-tag, for a page to
// style and find.
#pragma once

#include <lapwright/draw/drawing.h>

#include <string>

namespace lapwright::draw {

struct SvgOptions {
  // NOLINTNEXTLINE(readability-redundant-member-init): else filling by name draws a warning
  std::string id_prefix{};   // before every id, when several drawings share one page
  bool white_ground = true;  // a white rectangle under everything
  bool xml_header = true;    // <?xml ...?>, for a file; not inside HTML
  // Pure black and white if empty. Otherwise what black becomes, e.g. "currentColor", and what white becomes.
  std::string ink = "#000";
  std::string paper = "#fff";
  // Above 0: the root says where its upper left corner lies in the drawing (data-left, data-top, mm of paper)
  // and at what scale the drawing shows the real thing (data-scale), so that a page can tell where it was
  // tapped.
  double scale = 0;
};

std::string write_svg(const Page& page, const SvgOptions& options = {});
// A free drawing: the picture is its extents with `margin` mm around.
std::string write_svg(const Drawing& drawing, std::string_view title, double margin,
                      const SvgOptions& options = {});

}  // namespace lapwright::draw
