#include <lapwright/draw/style.h>

namespace lapwright::draw {
namespace {

constexpr std::array<LineLook, kLineKinds> kLines{{
    {"cut", 0.7, {}},
    {"fold", 0.35, {4, 1.5}},
    {"hidden", 0.18, {0.6, 0.9}},
    {"outline", 0.35, {}},
    {"thin", 0.18, {}},
    {"dimension", 0.18, {}},
    {"axis", 0.18, {6, 1.2, 0.8, 1.2}},
    {"heavy", 0.5, {}},
}};

constexpr std::array<std::string_view, kLayers> kLayerNames{
    "cut", "fold", "hidden", "outline", "thin", "hatch", "dimension", "text", "mark", "frame"};

// Each reads apart from the others by direction, rhythm and dash, also after a bad photocopy.
constexpr std::array<HatchFamily, 1> kBrick{{{45, 0, 0, 2.4, 0, 0, 0}}};
constexpr std::array<HatchFamily, 2> kStone{{{45, 0, 0, 3.2, 0, 0, 0}, {135, 0, 0, 3.2, 0, 2.2, 1.0}}};
constexpr std::array<HatchFamily, 3> kTimber{
    {{45, 0, 0, 3.6, 0, 0, 0}, {45, 0.7, 0, 3.6, 0, 0, 0}, {135, 0, 0, 9, 0, 0, 0}}};
constexpr std::array<HatchFamily, 1> kLead{{{0, 0, 0, 1.5, 0, 0, 0}}};
constexpr std::array<HatchFamily, 2> kWater{{{0, 0, 0, 2.6, 3, 4, 2}, {0, 3, 0.8, 2.6, 3, 2, 4}}};
constexpr std::array<HatchFamily, 2> kGlue{{{60, 0, 0, 4.5, 0, 0, 0}, {120, 0, 0, 4.5, 0, 0, 0}}};
constexpr std::array<HatchFamily, 3> kUnits{
    {{0, 0, 0, 3, 0, 0, 0}, {90, 0, 0, 4, 0, 3, 3}, {90, 2, 3, 4, 0, 3, 3}}};
constexpr std::array<HatchFamily, 1> kWaste{{{135, 0, 0, 5, 0, 0, 0}}};

constexpr std::array<HatchLook, kHatchKinds> kHatches{{
    {"brick", 0.13, kBrick},
    {"stone", 0.13, kStone},
    {"timber", 0.13, kTimber},
    {"lead", 0.1, kLead},
    {"water", 0.18, kWater},
    {"glue-here", 0.13, kGlue},
    {"units", 0.1, kUnits},
    {"waste", 0.13, kWaste},
}};

}  // namespace

const LineLook& look_of(LineKind kind) {
  return kLines[static_cast<std::size_t>(kind)];
}
const HatchLook& look_of(HatchKind kind) {
  return kHatches[static_cast<std::size_t>(kind)];
}
std::string_view name_of(Layer layer) {
  return kLayerNames[static_cast<std::size_t>(layer)];
}

Layer layer_of(LineKind kind) {
  switch (kind) {
    case LineKind::cut:
      return Layer::cut;
    case LineKind::fold:
      return Layer::fold;
    case LineKind::hidden:
      return Layer::hidden;
    case LineKind::outline:
      return Layer::outline;
    case LineKind::dimension:
      return Layer::dimension;
    case LineKind::heavy:
      return Layer::frame;
    case LineKind::thin:
    case LineKind::axis:
      break;
  }
  return Layer::thin;
}

}  // namespace lapwright::draw
