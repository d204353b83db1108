// The roll at the middle of a wide gutter, cut through: its core on the boards, the sheet that is laid first
// up one side and over, the other right over it and onto the sole beyond.
#include "pages.h"
#include "placed.h"

#include <lapwright/base/trig.h>
#include <lapwright/draw/symbols.h>

#include <algorithm>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;

constexpr double kHalfTurn = 180;
constexpr double kBoard = 25;   // thick, as drawn, mm
constexpr double kFlat = 88;    // of sole that is drawn each side of the roll, mm
constexpr double kLead = 0.9;   // how thick lead is drawn, mm of paper
constexpr double kApart = 1.7;  // sheets on each other, mm of paper

struct Roll {
  double core = 0;
  double under = 0;
  double over = 0;
};

// Along the sole from its far end to the core, then up, over and down, `off` outside the core and the sole,
// for `length` from the core's near side; the rest lies on the sole beyond. From the left; the caller
// mirrors.
std::vector<Point> round_the_core(const Roll& roll, double off, double length) {
  const double r = roll.core / 2;
  std::vector<Point> out{{-kFlat, off}, {-r - off, off}};
  double left = length;
  const auto go = [&](Point to, double stretch) {
    const Point from = out.back();
    const double part = stretch > 0 ? std::min(1.0, std::max(0.0, left) / stretch) : 1;
    out.push_back(from + (to - from) * part);
    left -= stretch;
    return left > 0;
  };
  if (!go({-r - off, r}, r)) return out;
  constexpr int kParts = 36;
  for (int i = 1; i <= kParts; ++i) {
    const double angle = kHalfTurn - kHalfTurn * i / kParts;
    const Point to{(r + off) * cos_deg(angle), r + (r + off) * sin_deg(angle)};
    if (!go(to, 3.141592653589793 * r / kParts)) return out;
  }
  if (!go({r + off, off}, r)) return out;
  go({r + off + left, off}, left);
  return out;
}

draw::Path lead(std::vector<Point> points, bool mirrored, double scale) {
  for (Point& p : points) p = Point{mirrored ? -p.x : p.x, p.y} * scale;
  draw::Path out = draw::polyline(points, LineKind::heavy);
  out.stroke = draw::Stroke{LineKind::heavy, kLead};
  return out;
}

draw::Path timber(std::vector<Point> points, double scale) {
  for (Point& p : points) p = p * scale;
  draw::Path out = draw::polygon(points, LineKind::outline);
  out.fill = draw::Fill::hatched(draw::HatchKind::timber);
  return out;
}

draw::Drawing picture(const Words& words, const Roll& roll, double scale) {
  draw::Drawing out;
  const double r = roll.core / 2;
  out.add(timber({{-kFlat, -kBoard}, {kFlat, -kBoard}, {kFlat, 0}, {-kFlat, 0}}, scale));
  std::vector<Point> core{{-r, 0}, {r, 0}};
  constexpr int kParts = 24;
  for (int i = 0; i <= kParts; ++i) {
    const double angle = kHalfTurn * i / kParts;
    core.push_back({r * cos_deg(angle), r + r * sin_deg(angle)});
  }
  out.add(timber(core, scale));
  const double first = kLead * 0.7 / scale;
  const double second = (kLead * 0.7 + kApart) / scale;
  out.add(lead(round_the_core(roll, first, roll.under), false, scale));
  out.add(lead(round_the_core(roll, second, roll.over), true, scale));
  const auto said = [&](std::string_view key, double length, Point at, Point to) {
    out.add(draw::leader(at * scale, at * scale + to, words.say(key) + " " + words.tape(Length::mm(length)),
                         kNumber));
  };
  const double splash = roll.over - roll.core * (1 + 3.141592653589793 / 2);
  out.add(draw::Dimension{.from = Point{-r, -kBoard} * scale,
                          .to = Point{r, -kBoard} * scale,
                          .offset = -9,
                          .text = words.say("sheet.roll_core") + " " + words.tape(Length::mm(roll.core)),
                          .size = kNumber});
  out.add(draw::Dimension{.from = Point{-r - second - splash, second} * scale,
                          .to = Point{-r - second, second} * scale,
                          .offset = 12,
                          .text = words.say("sheet.roll_splash") + " " + words.tape(Length::mm(splash)),
                          .size = kNumber});
  said("sheet.roll_under", roll.under, {-r - first, r * 0.6}, {-28, 34});
  said("sheet.roll_over", roll.over, {r + second, r * 0.9}, {14, 26});
  return out;
}

}  // namespace

void add_roll_sections(Sheets& sheets) {
  const Words& words = sheets.words();
  std::set<std::pair<std::string, std::string>> drawn;
  for (const job::Piece& piece : sheets.sources().plan.pieces) {
    const Roll roll{figure_or(piece, "roll_over", 0) > 0
                        ? 2 * (figure_or(piece, "roll_over", 0) - figure_or(piece, "roll_beyond", 0))
                        : 0,
                    figure_or(piece, "roll_under", 0), figure_or(piece, "roll_over", 0)};
    if (roll.core <= 0 || !drawn.emplace(piece.slope, piece.junction).second) continue;
    const About about{{piece.slope, piece.junction}};
    constexpr double kNotes = 60;  // round the picture
    const double scale = usual_scale(2 * kFlat, roll.core + kBoard, kArea.width() - 20,
                                     sheets.room(about) - kNoteHigh - kNotes);
    const draw::Drawing drawing = picture(words, roll, scale);
    const draw::Box box = draw::extents(drawing);
    draw::Drawing& page = sheets.begin(
        words.say("sheet.section_roll", {{"slope", piece.slope, ""}, {"junction", piece.junction, ""}}),
        scale, about);
    add_note(sheets, words.say("sheet.section_roll_note"));
    page.add(drawing, {.move = {(kArea.left + kArea.right - box.left - box.right) / 2,
                                (kArea.bottom + sheets.top() - box.bottom - box.top) / 2}});
  }
}

}  // namespace lapwright::sheets
