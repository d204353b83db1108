// Two sections at a wall with soakers: along the slope through two laps, and across at the wall. Walls that
// give the same drawing share a page.
#include "face_view.h"
#include "pages.h"

#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>

#include <algorithm>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;

constexpr double kLead = 0.9;  // how thick lead is drawn, mm of paper

struct Laps {
  double unit = 0;  // length
  double gauge = 0;
  double thick = 0;  // as drawn: thickness and camber
  double set_back = 0;
  double hook = 0;
  double leg = 0;
  double upstand = 0;
  double proud = 0;
  friend bool operator==(const Laps&, const Laps&) = default;
};

// A wall to draw, and the further ones of which the drawing would be the same.
struct Alike {
  const Wall* wall = nullptr;
  Laps laps;
  std::vector<const Wall*> others;
};

Laps laps_of(const Wall& wall) {
  const job::Piece& piece = *wall.soakers[wall.soakers.size() / 2].piece;
  Laps laps;
  laps.gauge = wall.set_out->gauge.in_mm();
  laps.unit = wall.set_out->lengths.empty() ? 0 : wall.set_out->lengths.front().in_mm();
  laps.thick = wall.face;
  laps.set_back = figure_or(piece, "set_back", 0);
  laps.hook = figure_or(piece, "hook", 0);
  laps.leg = figure_or(piece, "leg", 0);
  laps.upstand = figure_or(piece, "upstand", 0);
  laps.proud = figure_or(piece, "proud", laps.upstand - laps.thick);
  return laps;
}

draw::Path lead_line(const std::vector<Point>& points, LineKind kind = LineKind::heavy) {
  draw::Path out = draw::polyline(points, kind);
  out.stroke = draw::Stroke{kind, kLead};
  return out;
}

// In true mm, the slope level: s right, n up; tail of the lowest unit at 0.
draw::Drawing along(const Laps& v, double scale) {
  draw::Drawing out;
  const double fall = v.thick / v.gauge;  // units nest: each rests on the one below
  const auto p = [&](double s, double n) { return Point{s, n} * scale; };
  constexpr int kCourses = 3;
  for (int k = -1; k < kCourses; ++k) {
    const double tail = k * v.gauge;
    const double batten_top = tail + v.unit - 20;
    const double under = -fall * (v.unit - 20);
    draw::Path batten = draw::polygon({p(batten_top - 38, under - 25), p(batten_top, under - 25),
                                       p(batten_top, under), p(batten_top - 38, under)});
    batten.fill = draw::Fill::hatched(draw::HatchKind::timber);
    out.add(std::move(batten));
  }
  for (int k = -1; k < kCourses; ++k) {
    const double tail = k * v.gauge;
    draw::Path unit = draw::polygon({p(tail, 0), p(tail, v.thick), p(tail + v.unit, v.thick - fall * v.unit),
                                     p(tail + v.unit, -fall * v.unit)});
    unit.fill = draw::Fill::white();
    out.add(std::move(unit));
  }
  for (int k = 0; k < kCourses; ++k) {
    const double tail = k * v.gauge;
    const double head = v.unit - v.gauge;  // of the unit that it lies on, from this tail
    std::vector<Point> lead{p(tail + v.set_back, -fall * v.set_back), p(tail + head, -fall * head)};
    if (v.hook > 0) lead.push_back(p(tail + head + 2, -fall * head - v.hook));
    out.add(lead_line(lead));
  }
  return out;
}

// With its dimensions, as steep as the roof is.
draw::Drawing along_with_lengths(const Words& words, const Wall& wall, const Laps& v, double scale,
                                 bool turned) {
  draw::Drawing d = along(v, scale);
  const auto p = [&](double s, double n) { return Point{s, n} * scale; };
  const auto between = [&](double from, double to, double n, double offset, std::string_view key,
                           ShownHow how) {
    d.add(draw::Dimension{.from = p(from, n),
                          .to = p(to, n),
                          .offset = offset,
                          .text = words.say(key) + " " + words.tape(Length::mm(to - from), how),
                          .size = kNumber});
  };
  const double soaker = v.unit - v.gauge - v.set_back;
  const double low = -v.thick / v.gauge * v.unit - 25;
  between(v.gauge, 2 * v.gauge, v.thick, 9, "sheet.gauge", ShownHow::down);
  between(2 * v.gauge, 2 * v.gauge + v.set_back, v.thick, 20, "sheet.set_back", ShownHow::nearest);
  between(2 * v.gauge, v.unit, low, -9, "sheet.headlap", ShownHow::down);
  const double lap_end = v.gauge + v.set_back + soaker;
  if (soaker > v.gauge) {
    between(2 * v.gauge + v.set_back, lap_end, low, -20, "sheet.soaker_lap", ShownHow::down);
  }
  between(v.gauge + v.set_back, lap_end, low, -31, "sheet.soaker_on_roof", ShownHow::up);
  draw::Drawing out;
  out.add(d, {.rotation = turned ? wall.slope->pitch.value.in_degrees() : 0.0});
  return out;
}

constexpr double kUsualScales[] = {1, 2, 2.5, 3, 4, 5, 10, 20, 25, 50};

// What the note at a section's head says: what is seen, and where else it is the same.
std::vector<std::string> note_lines(const Words& words, const Alike& alike, std::string_view key) {
  std::string note = words.say(key);
  std::string places;
  for (const Wall* wall : alike.others) {
    if (!places.empty()) places += "; ";
    places += wall->slope->name + " / " + face_name(wall->junction, wall->face_name);
  }
  if (!places.empty()) note += " " + words.say("sheet.same_at", {{"places", places, ""}});
  return draw::wrapped(note, kArea.width() - 4, kNumber);
}

double height_of(const std::vector<std::string>& lines) {
  return static_cast<double>(lines.size()) * draw::line_height(kNumber);
}

void add_along(Sheets& sheets, const Alike& alike) {
  const Words& words = sheets.words();
  const Wall& wall = *alike.wall;
  const Laps& v = alike.laps;
  constexpr double kKey = 32;
  const std::vector<std::string> note = note_lines(words, alike, "sheet.section_along_note");
  const double head = height_of(note) + 6;
  const About about{{wall.slope->name, wall.junction.name}};
  const double room = sheets.room(about) - kKey - head;
  draw::Drawing section;
  draw::Box box;
  double scale = 1;
  for (const double one_to : kUsualScales) {
    scale = 1 / one_to;
    section = along_with_lengths(words, wall, v, scale, true);
    box = draw::extents(section);
    if (box.width() <= kArea.width() - 4 && box.height() <= room) break;
  }
  draw::Drawing& page = sheets.begin(
      words.say("sheet.section_along", {{"slope", wall.slope->name, ""},
                                        {"junction", face_name(wall.junction, wall.face_name), ""}}),
      scale, about);
  double y = sheets.top() - 5;
  for (const std::string& line : note) {
    page.add(text_at(line, {kArea.left + 2, y}));
    y -= draw::line_height(kNumber);
  }
  page.add(section, {.move = {(kArea.left + kArea.right - box.left - box.right) / 2,
                              kArea.bottom + kKey + (room - box.height()) / 2 - box.bottom}});
  double key = kArea.bottom + 22;
  page.add(lead_line({{kArea.left + 4, key + 1.4}, {kArea.left + 20, key + 1.4}}));
  page.add(text_at(words.say("sheet.key_soaker"), {kArea.left + 25, key}));
  key -= 8;
  page.add(draw::rectangle(kArea.left + 4, key - 0.5, 16, 4));
  page.add(text_at(words.say("sheet.key_unit"), {kArea.left + 25, key}));
  key -= 8;
  draw::Path batten = draw::rectangle(kArea.left + 8, key - 1, 8, 5);
  batten.fill = draw::Fill::hatched(draw::HatchKind::timber);
  page.add(std::move(batten));
  page.add(text_at(words.say("sheet.key_batten"), {kArea.left + 25, key}));
}

void add_across(Sheets& sheets, const Alike& alike) {
  const Words& words = sheets.words();
  const Wall& wall = *alike.wall;
  const Laps& v = alike.laps;
  const std::vector<std::string> note = note_lines(words, alike, "sheet.section_across_note");
  const practice::Pack& pack = sheets.sources().pack;
  const double gap = v.leg - std::max(wall.slope->covering.width.most().in_mm() / 2,
                                      pack.length("soaker.leg_least").in_mm());
  const double turn_in = pack.length("step.turn_in").in_mm();
  const double top = v.thick + std::max(150.0, v.upstand);
  const double wide = v.leg + 60;
  const double leaf = 102.5;
  const About about{{wall.slope->name, wall.junction.name}};
  const double scale = usual_scale(wide + leaf, top + 80, kArea.width() - 60,
                                   std::min(170.0, sheets.room(about) - 50 - height_of(note)));
  draw::Drawing& page = sheets.begin(
      words.say("sheet.section_across", {{"slope", wall.slope->name, ""},
                                         {"junction", face_name(wall.junction, wall.face_name), ""}}),
      scale, about);
  double y = sheets.top() - 6;
  for (const std::string& line : note) {
    page.add(text_at(line, {kArea.left + 2, y}));
    y -= draw::line_height(kNumber);
  }
  draw::Drawing d;
  const auto p = [&](double u, double n) { return Point{wall.side * u, n} * scale; };
  const double joint = v.thick + 120;
  draw::Path masonry =
      draw::polygon({p(-leaf, -70), p(0, -70), p(0, joint - 5), p(-turn_in - 3, joint - 5),
                     p(-turn_in - 3, joint + 5), p(0, joint + 5), p(0, top + 30), p(-leaf, top + 30)});
  masonry.fill = draw::Fill::hatched(
      wall.junction.wall.kind == job::WallKind::brick ? draw::HatchKind::brick : draw::HatchKind::stone);
  d.add(std::move(masonry));
  const auto slab = [&](double n) {
    draw::Path unit = draw::polygon({p(gap, n), p(wide, n), p(wide, n + v.thick), p(gap, n + v.thick)});
    unit.fill = draw::Fill::white();
    d.add(std::move(unit));
  };
  slab(-v.thick);
  slab(0);
  const double off = 1.2 / scale;
  d.add(lead_line({p(v.leg, 0), p(off, 0), p(off, v.upstand)}));
  d.add(lead_line({p(off * 2.4, v.thick + 2), p(off * 2.4, joint), p(-turn_in, joint)}));
  const auto dim = [&](Point a, Point b, double offset, const std::string& text) {
    d.add(draw::Dimension{.from = a, .to = b, .offset = offset, .text = text, .size = kNumber});
  };
  const double s = wall.side;
  // The upright lengths stand clear of the words that name the flashing.
  const double named = 30 * scale + 2 + draw::text_width(words.say("sheet.key_flashing"), kNumber);
  const double out = std::max(8.0, named + 4 - wide * scale);
  dim(p(0, -v.thick), p(v.leg, -v.thick), -9 * s,
      words.say("sheet.leg") + " " + words.tape(Length::mm(v.leg), ShownHow::up));
  dim(p(wide, 0), p(wide, v.upstand), -(out + 12) * s,
      words.say("sheet.upstand") + " " + words.tape(Length::mm(v.upstand), ShownHow::up));
  dim(p(wide, v.thick), p(wide, v.upstand), -out * s,
      words.say("sheet.proud") + " " + words.tape(Length::mm(v.proud), ShownHow::down));
  dim(p(-turn_in, joint), p(0, joint), 20 * s,
      words.say("sheet.turn_in") + " " + words.tape(Length::mm(turn_in), ShownHow::up));
  d.add(draw::leader(p(off * 2.4, (v.upstand + joint) / 2), p(30, joint - 12),
                     words.say("sheet.key_flashing"), kNumber));
  const draw::Box box = draw::extents(d);
  page.add(d, {.move = {(kArea.left + kArea.right - box.left - box.right) / 2,
                        std::max(kArea.bottom + 30, (y + kArea.bottom - box.height()) / 2) - box.bottom}});
  page.add(lead_line({{kArea.left + 4, kArea.bottom + 9.4}, {kArea.left + 20, kArea.bottom + 9.4}}));
  page.add(text_at(words.say("sheet.key_lead"), {kArea.left + 25, kArea.bottom + 8}));
}

bool same_along(const Wall& a, const Wall& b) {
  return a.slope->pitch.value == b.slope->pitch.value;
}

bool same_across(const Wall& a, const Wall& b) {
  return a.side == b.side && a.slope->covering.width.most() == b.slope->covering.width.most() &&
         (a.junction.wall.kind == job::WallKind::brick) == (b.junction.wall.kind == job::WallKind::brick);
}

// A wall of which a warning must be read keeps a page of its own.
std::vector<Alike> alike(const Sheets& sheets, const std::vector<Wall>& walls,
                         bool (*same)(const Wall&, const Wall&)) {
  std::vector<Alike> out;
  for (const Wall& wall : walls) {
    if (wall.soakers.empty()) continue;
    const Laps laps = laps_of(wall);
    if (laps.gauge <= 0 || laps.unit <= 0) continue;
    const auto warned = [&](const Wall& one) {
      return !warnings_at(sheets.sources().plan, {{one.slope->name, one.junction.name}}).empty();
    };
    const auto found = std::find_if(out.begin(), out.end(), [&](const Alike& one) {
      return one.laps == laps && same(*one.wall, wall) && !warned(*one.wall) && !warned(wall);
    });
    if (found == out.end()) {
      out.push_back({&wall, laps, {}});
    } else {
      found->others.push_back(&wall);
    }
  }
  return out;
}

}  // namespace

void add_sections(Sheets& sheets, const std::vector<Wall>& walls) {
  for (const Alike& one : alike(sheets, walls, same_along)) add_along(sheets, one);
  for (const Alike& one : alike(sheets, walls, same_across)) add_across(sheets, one);
}

}  // namespace lapwright::sheets
