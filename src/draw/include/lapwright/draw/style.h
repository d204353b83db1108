// How lines and areas look: kinds of line, layers and hatches, each in one table that every writer reads.
//
// Meaning is carried by weight, dash and hatch, never by colour, so that a sheet copied in black and white
// says the same. All sizes are millimetres of paper: they do not grow or shrink with the scale of what is
// drawn.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>

namespace lapwright::draw {

// A size of type given in points, as mm. 1 pt = 1/72 in.
constexpr double pt(double points) {
  return points * 25.4 / 72.0;
}

// What a line means.
enum class LineKind : std::uint8_t {
  cut,        // cut here
  fold,       // bend here
  hidden,     // under something else
  outline,    // an edge that is seen
  thin,       // joints, courses, leaders, symbols
  dimension,  // dimension and extension lines
  axis,       // centre lines
  heavy,      // frames, the ground line of a section
};
inline constexpr int kLineKinds = 8;

struct LineLook {
  std::string_view name;         // also the SVG class and the DXF line type
  double weight = 0;             // mm
  std::array<double, 4> dash{};  // mm on, off, on, off; all 0: solid
  bool dashed() const { return dash[0] > 0; }
};
const LineLook& look_of(LineKind kind);

// Where a thing is filed: a <g> in SVG, a layer in DXF. It does not change the order of painting, which is
// the order of adding.
enum class Layer : std::uint8_t { cut, fold, hidden, outline, thin, hatch, dimension, text, mark, frame };
inline constexpr int kLayers = 10;
std::string_view name_of(Layer layer);
Layer layer_of(LineKind kind);  // the layer where lines of a kind belong unless told otherwise

// What an area is made of.
enum class HatchKind : std::uint8_t {
  brick,      // masonry in section
  stone,      // rubble or stone in section
  timber,     // sawn timber in section
  lead,       // lead seen flat, or dressed down
  water,      // a wet area
  glue_here,  // the overlap of template pages
  units,      // tiles or slates left out of a drawing
  waste,      // offcut that goes to scrap
};
inline constexpr int kHatchKinds = 8;

// One family of parallel lines: through (x, y), at `angle` degrees from the x axis, `spacing` apart, each
// next line shifted `shift` along itself; dashed on, off when `on` > 0.
struct HatchFamily {
  double angle = 0;
  double x = 0;
  double y = 0;
  double spacing = 1;
  double shift = 0;
  double on = 0;
  double off = 0;
};

struct HatchLook {
  std::string_view name;
  double weight = 0;  // mm
  std::span<const HatchFamily> families;
};
const HatchLook& look_of(HatchKind kind);

struct Stroke {
  LineKind kind = LineKind::outline;
  double weight = 0;  // mm; 0: the kind's own weight
  double width() const { return weight > 0 ? weight : look_of(kind).weight; }
};

// What covers an area. A hatch lies on white unless `see_through`, so that a later thing hides an earlier
// one.
struct Fill {
  enum class Kind : std::uint8_t { none, grey, hatch };
  Kind kind = Kind::none;
  double grey = 1;  // 0 black ... 1 white
  HatchKind hatch = HatchKind::brick;
  bool see_through = false;

  static constexpr Fill none() { return {}; }
  static constexpr Fill white() { return {Kind::grey, 1, HatchKind::brick, false}; }
  static constexpr Fill black() { return {Kind::grey, 0, HatchKind::brick, false}; }
  static constexpr Fill level(double grey) { return {Kind::grey, grey, HatchKind::brick, false}; }
  static constexpr Fill hatched(HatchKind kind) { return {Kind::hatch, 1, kind, false}; }
  static constexpr Fill hatched_over(HatchKind kind) { return {Kind::hatch, 1, kind, true}; }
};

}  // namespace lapwright::draw
