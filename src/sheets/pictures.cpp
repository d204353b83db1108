// The drawings of a screen: the same as the sheets', as large as the screen has room for.
#include "elevation.h"
#include "face_view.h"
#include "flat_piece.h"
#include "measures.h"
#include "roll_view.h"
#include "roof_view.h"
#include "water.h"

#include <lapwright/draw/expand.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace lapwright::sheets {

namespace {

constexpr double kMargin = 2;
constexpr double kRing = draw::pt(13);  // a screen is zoomed, paper is read at arm's length

// What `make` draws, at the scale that fills the room. Texts and offsets do not scale, so the second try is
// made for the room that they left.
template <class Make>
ScreenPicture fitted(std::string name, std::string title, Room room, double most, Make make) {
  ScreenPicture out;
  out.name = std::move(name);
  out.title = std::move(title);
  constexpr double kFirst = 0.02;
  double scale = kFirst;
  for (int tries = 0; tries < 3; ++tries) {
    out.drawing = make(scale);
    out.scale = scale;
    const draw::Box all = draw::extents(out.drawing);
    const draw::Box points = draw::extents_of_points(out.drawing);
    if (all.empty() || points.width() <= 0 || points.height() <= 0) break;
    const double wide = std::max(10.0, room.width - 2 * kMargin - (all.width() - points.width()));
    const double high = std::max(10.0, room.height - 2 * kMargin - (all.height() - points.height()));
    scale = std::min(most, scale * std::min(wide / points.width(), high / points.height()));
  }
  return out;
}

}  // namespace

std::vector<ScreenPicture> pictures(const Sources& sources, Room room) {
  std::vector<ScreenPicture> out;
  const auto keep = [&](ScreenPicture picture) {
    if (!picture.drawing.empty()) out.push_back(std::move(picture));
  };
  constexpr double kWhole = 1;  // true size at most
  for (const job::Slope& slope : sources.survey.slopes) {
    keep(fitted("roof/" + slope.name, slope.name, room, kWhole, [&](double scale) {
      draw::Drawing drawing = roof_view(sources, slope, scale, kRing);
      add_roof_measures(drawing, sources, slope, scale);
      return drawing;
    }));
    keep(fitted("side/" + slope.name, slope.name, room, kWhole,
                [&](double scale) { return side_view(sources, slope, scale); }));
    keep(fitted("eaves/" + slope.name, slope.name, room, kWhole,
                [&](double scale) { return eaves_view(sources, slope, scale); }));
    keep(fitted("unit/" + slope.name, slope.name, room, kWhole,
                [&](double scale) { return unit_view(sources, slope, scale); }));
    keep(fitted("courses/" + slope.name, slope.name, room, kWhole,
                [&](double scale) { return courses_view(sources, slope, scale); }));
    for (const job::Junction& junction : slope.junctions) {
      keep(fitted("gap/" + slope.name + "/" + junction.name, junction.name, room, kWhole,
                  [&](double scale) { return gap_view(sources, slope, junction, scale); }));
    }
  }
  for (const Wall& wall : walls_of(sources)) {
    const std::string face = wall.face_name.empty() ? "" : "/" + wall.face_name;
    keep(fitted("wall/" + wall.slope->name + "/" + wall.junction.name + face,
                face_name(wall.junction, wall.face_name), room, kWhole, [&](double scale) {
                  ElevationView view;
                  view.scale = scale;
                  view.stretch = {wall.from, wall.to};
                  draw::Drawing drawing = elevation(sources, wall, view);
                  add_wall_measures(drawing, sources, wall, scale);
                  return drawing;
                }));
  }
  // Its lower end near enough to see a joint.
  for (const Wall& wall : walls_of(sources)) {
    if (wall.joints.empty()) continue;
    constexpr double kFoot = 600;
    const std::string face = wall.face_name.empty() ? "" : "/" + wall.face_name;
    keep(fitted("foot/" + wall.slope->name + "/" + wall.junction.name + face,
                face_name(wall.junction, wall.face_name), room, kWhole, [&](double scale) {
                  ElevationView view;
                  view.scale = scale;
                  view.stretch = {wall.from, std::min(wall.to, wall.from + kFoot)};
                  view.marks = false;
                  draw::Drawing drawing = elevation(sources, wall, view);
                  add_wall_measures(drawing, sources, wall, scale);
                  return drawing;
                }));
  }
  for (const FaceLead& lead : faces_with_lead(sources)) {
    const std::string face = lead.face.name.empty() ? "" : "/" + lead.face.name;
    keep(fitted("wall/" + lead.slope->name + "/" + lead.junction.name + face,
                face_name(lead.junction, lead.face.name), room, kWhole,
                [&](double scale) { return face_view(sources, lead, scale); }));
  }
  if (sources.proof != nullptr) {
    const Words words(sources);
    for (const job::Trace& trace : sources.proof->traces) {
      keep(fitted("water/" + trace.slope + "/" + trace.junction, trace.junction, room, kWhole,
                  [&](double scale) { return water_view(words, trace, scale); }));
    }
  }
  return out;
}

std::vector<ScreenPicture> roll_pictures(const Sources& sources, Room room) {
  std::vector<ScreenPicture> out;
  if (!sources.plan.cutting) return out;
  double longest = 0;
  for (const job::CutRoll& roll : sources.plan.cutting->rolls)
    longest = std::max(longest, roll.length.in_mm());
  constexpr double kMost = 0.2;  // a short offcut need not fill a wall
  constexpr double kBeside = 8;  // of the tape's figures at both ends
  const double scale =
      std::min(kMost, std::max(10.0, room.width - 2 * kMargin - kBeside) / std::max(longest, 1.0));
  for (const job::CutRoll& roll : sources.plan.cutting->rolls) {
    out.push_back(
        {"roll/" + roll.name, roll.name, roll_view(sources, roll, scale, false, PieceTag::place), scale});
  }
  return out;
}

std::optional<ScreenPicture> piece_picture(const Sources& sources, const job::Piece& piece, Room room) {
  const Words words(sources);
  ScreenPicture out = fitted("piece/" + piece.mark, piece.mark, room, 1,
                             [&](double scale) { return flat_piece(words, piece.net, scale); });
  if (out.drawing.empty()) return std::nullopt;
  return out;
}

}  // namespace lapwright::sheets
