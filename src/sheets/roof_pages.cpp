// The roof views' pages, and the same drawings as files of their own.
#include "pages.h"
#include "placed.h"
#include "roof_view.h"

#include <initializer_list>
#include <set>

namespace lapwright::sheets {

std::vector<NamedDrawing> roof_views(const Sources& sources) {
  std::vector<NamedDrawing> out;
  std::set<std::string> stems;
  for (const job::Slope& slope : sources.survey.slopes) {
    if (set_out_of(sources.plan, slope.name) == nullptr) continue;
    std::string stem = "roof-" + file_stem(slope.name);
    for (int i = 2; !stems.insert(stem).second; ++i)
      stem = "roof-" + file_stem(slope.name) + "-of-" + std::to_string(i);
    constexpr double kScale = 0.05;
    out.push_back({stem, slope.name, roof_view(sources, slope, kScale)});
  }
  return out;
}

namespace {

// The largest of these scales at which what `make` draws fits below a note.
struct Fitted {
  draw::Drawing drawing;
  double scale = 1;
};
template <class Make>
Fitted fitted(std::initializer_list<double> one_to, double room, Make make) {
  Fitted out;
  for (const double k : one_to) {
    out.scale = 1 / k;
    out.drawing = make(out.scale);
    const draw::Box box = draw::extents(out.drawing);
    if (box.width() <= kArea.width() - 2 && box.height() <= room - 2) break;
  }
  return out;
}

void lay(Sheets& sheets, const std::string& title, const std::string& note, const About& about,
         const Fitted& fitted, double room) {
  const draw::Box box = draw::extents(fitted.drawing);
  draw::Drawing& page = sheets.begin(title, fitted.scale, about);
  add_note(sheets, note);
  page.add(fitted.drawing, {.move = {(kArea.left + kArea.right - box.left - box.right) / 2,
                                     kArea.bottom + (room - box.height()) / 2 - box.bottom}});
}

}  // namespace

void add_roof_views(Sheets& sheets) {
  const Words& words = sheets.words();
  const Sources& sources = sheets.sources();
  for (const job::Slope& slope : sources.survey.slopes) {
    if (set_out_of(sources.plan, slope.name) == nullptr) continue;
    const About about{{slope.name, ""}};
    const double room = sheets.room(about) - kNoteHigh;
    lay(sheets, words.say("sheet.roof", {{"slope", slope.name, ""}}), words.say("sheet.roof_note"), about,
        fitted({5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500, 1000}, room,
               [&](double scale) { return roof_view(sources, slope, scale); }),
        room);
    for (const job::Junction& junction : junctions_on(sources.survey, slope)) {
      if (junction.kind != job::JunctionKind::stack && junction.kind != job::JunctionKind::pipe) continue;
      const About here{{slope.name, junction.name}};
      const double left = sheets.room(here) - kNoteHigh;
      const Fitted around =
          fitted({2, 2.5, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 100}, left,
                 [&](double scale) { return roof_around(sources, slope, junction, scale); });
      if (around.drawing.empty()) continue;
      lay(sheets,
          words.say("sheet.roof_around", {{"slope", slope.name, ""}, {"junction", junction.name, ""}}),
          words.say("sheet.roof_around_note"), here, around, left);
    }
  }
}

}  // namespace lapwright::sheets
