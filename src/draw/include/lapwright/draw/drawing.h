// The neutral drawing model: lines, areas, text and dimensions in millimetres, before any file format.
//
// x runs right, y runs UP. On a page the origin is the bottom left corner of the paper; in a free drawing it
// is where the drawing says. Angles are degrees, anticlockwise.
//
// A Drawing is a list of items in painting order. It may be drawn in the millimetres of the real thing and
// then laid on a page through a Placement, whose scale moves points only: weights, dashes, hatches, sizes of
// type and the offsets of dimensions are always millimetres of paper. Placing is resolved at once; nothing
// nests.
//
// The types are aggregates with defaults, to be filled by name:
//
//   Drawing soaker;
//   soaker.add(polygon({{0, 0}, {175, 0}, {175, 190}, {0, 190}}, LineKind::cut))
//       .add(line({100, 0}, {100, 190}, LineKind::fold))
//       .add(Dimension{.from = {0, 0}, .to = {175, 0}, .offset = -10, .text = "175"});
//   Page page{.title = "Soakers"};
//   page.drawing.add(soaker, {.move = {20, 100}, .scale = 0.4}, "S1");
//
// A model is data without rules to break, except: every number is finite, every size of type is > 0.
#pragma once

#include <lapwright/draw/style.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace lapwright::draw {

// Each field has an initializer, also where none is needed: without one, naming only some of them draws a
// warning. NOLINTBEGIN(readability-redundant-member-init)

struct Point {
  double x = 0;
  double y = 0;
  friend constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
  friend constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
  friend constexpr Point operator*(Point a, double k) { return {a.x * k, a.y * k}; }
  friend constexpr bool operator==(Point, Point) = default;
};

// Axis-parallel extents. Empty until something is taken in.
struct Box {
  double left = 0;
  double bottom = 0;
  double right = -1;
  double top = -1;
  constexpr bool empty() const { return right < left; }
  constexpr double width() const { return empty() ? 0 : right - left; }
  constexpr double height() const { return empty() ? 0 : top - bottom; }
  void take(Point p);
  void take(const Box& other);
  constexpr bool holds(const Box& b, double slack = 0) const {
    return b.empty() || (b.left >= left - slack && b.right <= right + slack && b.bottom >= bottom - slack &&
                         b.top <= top + slack);
  }
  // True when the interiors meet: boxes that touch do not overlap.
  constexpr bool overlaps(const Box& b, double slack = 0) const {
    return !empty() && !b.empty() && left + slack < b.right && b.left + slack < right &&
           bottom + slack < b.top && b.bottom + slack < top;
  }
};

// A corner of a contour and the way on to the next corner: straight (bulge 0) or an arc. The bulge is
// tan(sweep / 4) with the sweep anticlockwise: 1 is a half circle that runs anticlockwise, √2 − 1 a quarter.
struct Vertex {
  Point at{};
  double bulge = 0;
};

struct Contour {
  std::vector<Vertex> vertices{};
  bool closed = false;  // closed: the last vertex leads on to the first
};

struct Path {
  std::vector<Contour> contours{};  // filled by the even-odd rule, so a second contour inside is a hole
  std::optional<Stroke> stroke = Stroke{};
  Fill fill = Fill::none();
  std::optional<Layer> layer{};  // unset: the layer of the stroke's kind, or `outline`
  std::string tag{};             // the name of the thing it shows, for a page to find it (SVG data-tag)
};

// Makers of paths. Each may be given stroke, fill, layer and tag afterwards.
Path line(Point a, Point b, LineKind kind = LineKind::outline);
Path polyline(const std::vector<Point>& points, LineKind kind = LineKind::outline);
Path polygon(const std::vector<Point>& points, LineKind kind = LineKind::outline);
Path rectangle(double left, double bottom, double width, double height, LineKind kind = LineKind::outline);
Path circle(Point centre, double radius, LineKind kind = LineKind::outline);
// From `start` degrees anticlockwise through `sweep` degrees (clockwise if negative); at most a full turn.
Path arc(Point centre, double radius, double start, double sweep, LineKind kind = LineKind::outline);

enum class Anchor : std::uint8_t { start, middle, end };
enum class Seat : std::uint8_t { baseline, middle, top };  // which height of a capital lies on the position
enum class Weight : std::uint8_t { regular, bold };

struct Text {
  std::string text{};  // UTF-8; what cannot be drawn is replaced as font.h says
  Point at{};
  double size = pt(9);  // of the em, mm: what is called "9 pt" is pt(9)
  Anchor anchor = Anchor::start;
  Seat seat = Seat::baseline;
  double rotation = 0;  // degrees, about `at`
  Weight weight = Weight::regular;
  bool on_white = false;  // paints white behind itself, to be read on a hatch
  Layer layer = Layer::text;
  std::string tag{};
};

// A length between two points: line, extension lines, ticks, and the text along it, readable from below or
// from the right. When the text does not fit between the ticks it stands beyond the second one.
struct Dimension {
  Point from{};
  Point to{};
  double offset = 8;   // of the line from the points, mm of paper, to the left of from → to; may be negative
  std::string text{};  // what it says: the caller knows the true length, the drawing may be to scale
  double size = pt(9);
  LineKind line = LineKind::dimension;  // LineKind::hidden for a length that is not known yet
  Weight weight = Weight::regular;
  std::string tag{};
};

// Lengths read from one edge, as off a tape hooked at `zero`: one line, a ring at zero, a tick at each stop
// with its text square to the line. Stops too near for their texts are spread apart and led to their ticks by
// kinked leaders.
struct Chain {
  Point zero{};
  Point towards{};  // gives the direction only
  struct Stop {
    Point at{};  // projected on the line
    std::string text{};
  };
  std::vector<Stop> stops{};
  double offset = 12;  // of the line from `zero`, mm of paper, to the left of zero → towards; may be negative
  std::string zero_text = "0";
  double size = pt(9);
  LineKind line = LineKind::dimension;
  std::string tag{};
};

using Item = std::variant<Path, Text, Dimension, Chain>;

// How a drawing is laid into another: mirrored first (x → −x), then scaled, turned, moved.
struct Placement {
  Point move{};
  double scale = 1;     // > 0; 0.1 for 1:10
  double rotation = 0;  // degrees
  bool mirrored = false;

  Point apply(Point p) const;
};

class Drawing {
 public:
  Drawing& add(Path path);
  Drawing& add(Text text);
  Drawing& add(Dimension dimension);
  Drawing& add(Chain chain);
  // Text keeps its size and stays readable: turned with the drawing, never mirrored. `tag` goes to items
  // without one.
  Drawing& add(const Drawing& other, const Placement& placement = {}, std::string_view tag = {});

  const std::vector<Item>& items() const { return items_; }
  bool empty() const { return items_.empty(); }

 private:
  std::vector<Item> items_;
};

// The box of the points of all items, without weights, text and dimensions: what is to be scaled to fit a
// space.
Box extents_of_points(const Drawing& drawing);
// The box of all that is painted at scale 1, with text and dimensions.
Box extents(const Drawing& drawing);

struct Page {
  double width = 210;   // mm
  double height = 297;  // mm
  Drawing drawing{};
  std::string title{};
  double from_top(double down) const { return height - down; }
};

struct Document {
  std::string title{};
  std::string language = "en-GB";
  std::vector<Page> pages{};
};

// NOLINTEND(readability-redundant-member-init)
}  // namespace lapwright::draw
