// A wall over pages: the whole of it, then each flashing near enough to read every joint.
#include "elevation.h"
#include "face_view.h"
#include "pages.h"

#include <lapwright/draw/font.h>

#include <algorithm>

namespace lapwright::sheets {

namespace {

// Laid into the area below `top`, in its middle.
void lay(draw::Drawing& page, const draw::Drawing& drawing, double top) {
  const draw::Box box = draw::extents(drawing);
  const draw::Point move{(kArea.left + kArea.right - box.left - box.right) / 2,
                         std::max(kArea.bottom + 2, (top + kArea.bottom - box.height()) / 2) - box.bottom};
  page.add(drawing, {.move = move});
}

bool fits(const draw::Drawing& drawing, double room_height) {
  const draw::Box box = draw::extents(drawing);
  return box.width() <= kArea.width() - 2 && box.height() <= room_height - 4;
}

void add_view(Sheets& sheets, const Wall& wall, const std::string& name, const std::string& note,
              ElevationView view) {
  constexpr double kNote = 12;
  const About about{{wall.slope->name, wall.junction.name}};
  const double room = sheets.room(about) - kNote;
  draw::Drawing drawing;
  for (const double one_to : {5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0, 500.0, 1000.0}) {
    view.scale = 1 / one_to;
    drawing = elevation(sheets.sources(), wall, view);
    if (fits(drawing, room)) break;
  }
  draw::Drawing& page = sheets.begin(name, view.scale, about);
  double y = sheets.top() - 5;
  for (const std::string& line : draw::wrapped(note, kArea.width() - 4, kNumber)) {
    page.add(text_at(line, {kArea.left + 2, y}));
    y -= draw::line_height(kNumber);
  }
  lay(page, drawing, sheets.top() - kNote);
}

}  // namespace

void add_elevations(Sheets& sheets, const std::vector<Wall>& walls) {
  const Words& words = sheets.words();
  for (const Wall& wall : walls) {
    const std::string name = words.say(
        "sheet.elevation",
        {{"slope", wall.slope->name, ""}, {"junction", face_name(wall.junction, wall.face_name), ""}});
    ElevationView whole;
    whole.stretch = {wall.from, wall.to};
    add_view(sheets, wall, name,
             words.say(wall.joints.empty() ? "sheet.elevation_note_plain" : "sheet.elevation_note"), whole);
    if (wall.joints.empty()) continue;
    for (const PlacedPiece& placed : wall.flashings) {
      constexpr double kAround = 60;
      const Stretch own = stretch_of(placed);
      ElevationView near;
      near.stretch = {std::max(wall.from, own.low - kAround), std::min(wall.to, own.high + kAround)};
      near.heights_at_steps = true;
      add_view(sheets, wall,
               words.say("sheet.elevation_of", {{"mark", placed.piece->mark, ""},
                                                {"slope", wall.slope->name, ""},
                                                {"junction", face_name(wall.junction, wall.face_name), ""}}),
               words.say("sheet.elevation_of_note"), near);
    }
  }
}

std::vector<NamedDrawing> elevations(const Sources& sources) {
  std::vector<NamedDrawing> out;
  const auto add = [&](const job::Slope& slope, const std::string& name, draw::Drawing drawing) {
    std::string stem = "elevation-" + file_stem(name);
    const auto taken = std::count_if(out.begin(), out.end(), [&](const NamedDrawing& d) {
      return d.stem == stem || d.stem.starts_with(stem + "-of-");
    });
    if (taken > 0) stem += "-of-" + std::to_string(taken + 1);
    out.push_back({stem, slope.name + " / " + name, std::move(drawing)});
  };
  for (const Wall& wall : walls_of(sources)) {
    ElevationView view;
    view.stretch = {wall.from, wall.to};
    add(*wall.slope, face_name(wall.junction, wall.face_name), elevation(sources, wall, view));
  }
  for (const FaceLead& face : faces_with_lead(sources)) {
    constexpr double kScale = 0.1;
    add(*face.slope, face_name(face.junction, face.face.name), face_view(sources, face, kScale));
  }
  return out;
}

}  // namespace lapwright::sheets
