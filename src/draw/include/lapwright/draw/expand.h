// From the model to what every writer paints: plain stroked or filled paths and single lines of text.
//
// Dimensions, chains, hatches and white grounds are worked out here and nowhere else, so that SVG, PDF and
// DXF agree.
#pragma once

#include <lapwright/draw/drawing.h>

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace lapwright::draw {

struct PlainPath {
  std::vector<Contour> contours;
  std::optional<double> fill;  // grey; filled before it is stroked
  double weight = 0;           // 0: not stroked
  LineKind kind = LineKind::outline;
  std::string_view
      look;  // name of the line kind or of the hatch; "ground" for white under a hatch or text, "area"
  bool dashed = false;  // by the dash of `kind`
  Layer layer = Layer::outline;
  std::string tag;
};

struct PlainText {
  std::string text;  // as given
  Point at;          // left end of the baseline
  double size = 0;
  double rotation = 0;
  Weight weight = Weight::regular;
  double width = 0;  // of the drawn line
  Layer layer = Layer::text;
  std::string tag;
  // The four corners of the line, from below the descenders to the top of the capitals, anticlockwise from
  // the start.
  std::array<Point, 4> corners{};
  Box box() const;
};

using Plain = std::variant<PlainPath, PlainText>;

std::vector<Plain> expand(const Drawing& drawing);

// The straight pieces of a hatch over the inside (even-odd) of the contours. At most 20 000: beyond that the
// spacing is doubled until it holds.
std::vector<std::pair<Point, Point>> hatch_lines(const std::vector<Contour>& contours, HatchKind kind);

// The corners of a contour with its arcs broken into chords that stay within `tolerance` of them.
std::vector<Point> flattened(const Contour& contour, double tolerance = 0.01);

// Which texts of a page lie over each other or leave the paper: none on a page fit to print.
struct TextTrouble {
  std::string text;
  std::string other;  // empty: off the paper
};
std::vector<TextTrouble> text_troubles(const Page& page, double margin = 0);

}  // namespace lapwright::draw
