// The form to measure by: boxes for a pencil, with the drawing that says what each letter means; filled from
// a survey where there is one.
#include "pages.h"

#include <lapwright/base/numbers.h>
#include <lapwright/draw/font.h>
#include <lapwright/draw/symbols.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace lapwright::sheets {

namespace {

using draw::LineKind;
using draw::Point;
using draw::pt;
using draw::Weight;

// One thing to measure or to say: its letter on the drawing, the question, and the answer if it is known.
struct Question {
  std::string letter;
  std::string text;
  std::string answer;
};

class Form {
 public:
  Form(Sheets& sheets, std::string name) : sheets_(sheets), words_(sheets.words()) {
    sheets_.begin(std::move(name));
    y_ = kArea.top - 2;
  }

  void drawing(const draw::Drawing& what, double height) {
    sheets_.page().add(what, {.move = {kArea.left, y_ - height}});
    y_ -= height + 3;
  }
  void line(const std::string& text) {
    for (const std::string& one : draw::wrapped(text, kArea.width() - 2, kNumber)) {
      y_ -= draw::line_height(kNumber);
      sheets_.page().add(text_at(one, {kArea.left + 1, y_ + 1}));
    }
  }
  // A box for the answer, and two small ones: measured or guessed.
  void ask(const std::string& letter, const std::string& key, const std::string& answer, bool length = true) {
    constexpr double kHigh = 11.5;
    const double wide = length ? 66 : kArea.width() - 92;
    draw::Drawing& page = sheets_.page();
    const double left = kArea.left;
    if (!letter.empty()) page.add(text_at(letter, {left + 1, y_ - 7.5}, pt(14), Weight::bold));
    const double box = left + 90;
    std::vector<std::string> lines = draw::wrapped(words_.say(key), 78, kNumber);
    if (lines.size() > 2) lines.resize(2);
    double y = y_ - (lines.size() > 1 ? 4.5 : 7);
    for (const std::string& one : lines) {
      page.add(text_at(one, {left + 9, y}));
      y -= draw::line_height(kNumber);
    }
    page.add(draw::rectangle(box, y_ - kHigh + 1, wide, kHigh - 2.5, LineKind::outline));
    if (!answer.empty()) {
      const double size = draw::size_to_fit(answer, wide - 4, pt(14), kNumber, Weight::bold);
      page.add(text_at(draw::shortened(answer, wide - 4, size, Weight::bold), {box + 2, y_ - 7.7}, size,
                       Weight::bold));
    }
    if (length && answer.empty()) {
      double x = box + wide + 2;
      for (const std::string_view word : {"sheet.form.measured", "sheet.form.guessed"}) {
        const double at = word == "sheet.form.measured" ? y_ - 4.6 : y_ - 9.6;
        page.add(draw::rectangle(x, at, 3.4, 3.4, LineKind::thin));
        page.add(text_at(words_.say(word), {x + 4.6, at + 0.2}));
      }
    }
    y_ -= kHigh;
  }

 private:
  Sheets& sheets_;
  const Words& words_;
  double y_ = 0;
};

draw::Text letter(const std::string& text, Point at) {
  draw::Text out = text_at(text, at, pt(14), Weight::bold, draw::Anchor::middle);
  out.on_white = true;
  out.seat = draw::Seat::middle;
  return out;
}

void measure(draw::Drawing& out, Point from, Point to, const std::string& name) {
  draw::Path line = draw::line(from, to, LineKind::dimension);
  out.add(std::move(line));
  const bool level = std::abs(from.y - to.y) < std::abs(from.x - to.x);
  for (const Point p : {from, to}) {
    const Point tick = level ? Point{0, 1.6} : Point{1.6, 0};
    out.add(draw::line(p - tick, p + tick, LineKind::outline));
  }
  out.add(letter(name, (from + to) * 0.5));
}

// The slope seen square on beside its section, letters at what is measured.
draw::Drawing slope_picture() {
  draw::Drawing out;
  draw::Path roof = draw::rectangle(18, 10, 84, 44, LineKind::outline);
  out.add(std::move(roof));
  for (int i = 1; i < 8; ++i) out.add(draw::line({18, 10 + 5.5 * i}, {102, 10 + 5.5 * i}, LineKind::thin));
  measure(out, {18, 4}, {102, 4}, "B");
  measure(out, {9, 10}, {9, 54}, "A");
  // section: rafter, fascia, tail past it
  out.add(draw::polyline({{128, 14}, {178, 50}}, LineKind::heavy));
  out.add(draw::line({133, 4}, {133, 17.6}, LineKind::outline));
  out.add(draw::line({128, 14}, {170, 14}, LineKind::thin));
  out.add(draw::arc({128, 14}, 26, 0, 35.75, LineKind::dimension));
  out.add(letter("C", {158, 20}));
  measure(out, {128, 8}, {133, 8}, "");
  out.add(letter("D", {124, 7}));
  return out;
}

// A unit with its sizes, and two courses in section.
draw::Drawing unit_picture() {
  draw::Drawing out;
  out.add(draw::rectangle(20, 6, 26, 40, LineKind::outline));
  measure(out, {13, 6}, {13, 46}, "E");
  measure(out, {20, 1}, {46, 1}, "F");
  for (int i = 0; i < 4; ++i) {
    draw::Path unit = draw::polygon({{80 + 18.0 * i, 10 + 7.0 * i},
                                     {122 + 18.0 * i, 20 + 7.0 * i},
                                     {121.5 + 18.0 * i, 23 + 7.0 * i},
                                     {79.5 + 18.0 * i, 13 + 7.0 * i}},
                                    LineKind::outline);
    unit.fill = draw::Fill::white();
    out.add(std::move(unit));
  }
  measure(out, {80, 4}, {98, 4}, "G");
  out.add(letter("T", {74, 12}));
  return out;
}

// A wall beside the roof: bed joints, the roof line, the first joint above it, the gap.
draw::Drawing wall_picture() {
  draw::Drawing out;
  for (int i = 0; i < 7; ++i) out.add(draw::line({14, 4 + 7.0 * i}, {112, 4 + 7.0 * i}, LineKind::thin));
  draw::Path roof = draw::line({14, 2}, {112, 38}, LineKind::heavy);
  out.add(std::move(roof));
  measure(out, {7, 32}, {7, 39}, "J");
  out.add(draw::line({9, 32}, {14, 32}, LineKind::dimension));
  out.add(draw::line({9, 39}, {14, 39}, LineKind::dimension));
  measure(out, {24, 5.7}, {24, 11}, "");
  out.add(letter("K", {30, 9.8}));
  out.add(letter("H", {18, 45}));
  // from above: wall, gap, units
  draw::Path wall = draw::rectangle(134, 6, 8, 38, LineKind::outline);
  wall.fill = draw::Fill::hatched(draw::HatchKind::brick);
  out.add(std::move(wall));
  for (int i = 0; i < 3; ++i) out.add(draw::rectangle(147, 6 + 13.0 * i, 26, 12, LineKind::outline));
  measure(out, {142, 3}, {147, 3}, "");
  out.add(letter("L", {152, 2}));
  return out;
}

// A stack on the slope, seen square on.
draw::Drawing stack_picture() {
  draw::Drawing out;
  out.add(draw::rectangle(14, 6, 110, 44, LineKind::thin));
  draw::Path stack = draw::rectangle(62, 22, 24, 16, LineKind::outline);
  stack.fill = draw::Fill::hatched(draw::HatchKind::brick);
  out.add(std::move(stack));
  measure(out, {14, 30}, {62, 30}, "M");
  measure(out, {94, 6}, {94, 22}, "N");
  measure(out, {62, 43}, {86, 43}, "P");
  measure(out, {90, 22}, {90, 38}, "Q");
  out.add(draw::circle({146, 28}, 8, LineKind::outline));
  measure(out, {138, 14}, {154, 14}, "R");
  return out;
}

std::string measured(const Words& words, const Measured<Length>& value) {
  std::string out = words.length(value.value);
  if (value.spread > Length{}) out += " ± " + words.length(value.spread);
  return out;
}
std::string measured(const Words& words, const std::optional<Length>& value) {
  return value ? words.length(*value) : std::string();
}
std::string measured(const Words& words, const std::optional<Measured<Length>>& value) {
  return value ? measured(words, *value) : std::string();
}

void slope_page(Sheets& sheets, const job::Slope* slope) {
  const Words& words = sheets.words();
  Form form(sheets, slope == nullptr ? words.say("sheet.form.slope")
                                     : words.say("sheet.form.slope_named", {{"slope", slope->name, ""}}));
  const auto length = [&](const auto& value) { return measured(words, value); };
  form.drawing(slope_picture(), 58);
  form.ask("A", "sheet.form.rafter", slope ? length(slope->rafter) : "");
  form.ask("B", "sheet.form.width", slope ? length(slope->width) : "");
  form.ask("C", "sheet.form.pitch", slope ? words.value(slope->pitch.value.in_degrees(), "deg") : "");
  form.ask("D", "sheet.form.overhang", slope ? length(slope->overhang) : "");
  const job::Covering* covering = slope ? &slope->covering : nullptr;
  form.ask("", "sheet.form.covering",
           covering ? std::string(name_of(covering->kind)) +
                          (covering->kind == job::CoveringKind::slate
                               ? ", " + std::string(name_of(covering->nailing)) + "-nailed"
                               : "")
                    : "",
           false);
  form.drawing(unit_picture(), 50);
  form.ask("E", "sheet.form.unit_length", covering ? length(covering->length) : "");
  form.ask("F", "sheet.form.unit_width", covering ? length(covering->width) : "");
  form.ask("T", "sheet.form.thickness", covering ? length(covering->thickness) : "");
  form.ask("", "sheet.form.camber", covering ? length(covering->camber) : "");
  form.ask("G", "sheet.form.gauge", covering ? length(covering->max_gauge) : "");
}

void wall_page(Sheets& sheets, const job::Slope* slope, const job::Junction* junction) {
  const Words& words = sheets.words();
  const auto length = [&](const auto& value) { return measured(words, value); };
  Form form(sheets, junction == nullptr
                        ? words.say("sheet.form.wall")
                        : words.say("sheet.form.wall_named",
                                    {{"slope", slope->name, ""}, {"junction", junction->name, ""}}));
  form.drawing(wall_picture(), 54);
  const bool side = junction != nullptr && junction->kind == job::JunctionKind::side;
  std::string where = junction != nullptr ? std::string(name_of(junction->kind)) : "";
  if (side) where += ", " + std::string(name_of(junction->hand));
  form.ask("", "sheet.form.where", where, false);
  form.ask("", "sheet.form.from", side ? words.length(junction->from) : "");
  form.ask("", "sheet.form.to", side ? length(junction->to) : "");
  form.ask("H", "sheet.form.masonry", junction ? std::string(name_of(junction->wall.kind)) : "", false);
  form.ask("J", "sheet.form.course", junction ? length(junction->wall.course) : "");
  form.ask("K", "sheet.form.first_joint", junction ? length(junction->wall.first_joint) : "");
  std::string gaps;
  std::string joints;
  if (junction != nullptr) {
    for (const job::GapAt& gap : junction->gaps) {
      gaps += (gaps.empty() ? "" : ", ") + measured(words, gap.width);
    }
    for (const Measured<Length>& joint : junction->wall.joints)
      joints += (joints.empty() ? "" : ", ") + words.tape(joint.value);
  }
  form.ask("L", "sheet.form.gap", gaps);
  if (junction != nullptr && joints.empty()) return;
  form.line(words.say("sheet.form.joints") + (joints.empty() ? "" : " " + joints));
  if (junction != nullptr) return;
  for (int i = 0; i < 6; ++i) form.ask("", "sheet.form.joint_blank", "", false);
}

void stack_page(Sheets& sheets, const job::Slope* slope, const job::Junction* junction) {
  const Words& words = sheets.words();
  const auto length = [&](const auto& value) { return measured(words, value); };
  Form form(sheets, junction == nullptr
                        ? words.say("sheet.form.stack")
                        : words.say("sheet.form.stack_named",
                                    {{"slope", slope->name, ""}, {"junction", junction->name, ""}}));
  form.drawing(stack_picture(), 54);
  const bool pipe = junction != nullptr && junction->kind == job::JunctionKind::pipe;
  form.ask("M", "sheet.form.at", junction ? length(junction->at) : "");
  form.ask("N", "sheet.form.front", junction ? length(pipe ? junction->up : junction->front) : "");
  if (!pipe) {
    form.ask("P", "sheet.form.stack_width", junction ? length(junction->width) : "");
    form.ask("Q", "sheet.form.depth", junction ? length(junction->depth) : "");
    form.ask("", "sheet.form.across", junction ? junction->across.value_or("") : "", false);
    form.ask("J", "sheet.form.course", junction ? length(junction->wall.course) : "");
    form.ask("K", "sheet.form.first_joint", junction ? length(junction->wall.first_joint) : "");
  }
  if (pipe || junction == nullptr) {
    form.ask("R", "sheet.form.diameter", junction ? length(junction->diameter) : "");
  }
}

void head_page(Sheets& sheets, const job::Survey* survey) {
  const Words& words = sheets.words();
  Form form(sheets, words.say("sheet.form"));
  form.line(words.say("sheet.form_note"));
  form.line(" ");
  form.ask("", "sheet.form.title", survey ? survey->title : "", false);
  form.ask("", "sheet.form.date", survey ? survey->date.value_or("") : "", false);
  form.ask("", "sheet.form.by", survey ? survey->measured_by.value_or("") : "", false);
  form.ask("", "sheet.form.exposure",
           survey && survey->exposure_given ? std::string(name_of(survey->exposure)) : "", false);
  std::string joins;
  for (const job::Join& join : survey ? survey->joins : std::vector<job::Join>{}) {
    joins += (joins.empty() ? "" : "; ") + std::string(name_of(join.kind));
    for (const std::string& slope : join.slopes)
      joins += (&slope == &join.slopes.front() ? " " : " / ") + slope;
  }
  form.ask("", "sheet.form.joins", joins, false);
  for (int i = 1; words.has("sheet.form.look." + std::to_string(i)); ++i) {
    form.ask("", "sheet.form.look." + std::to_string(i), "", false);
  }
  if (survey == nullptr || survey->guessed.empty()) return;
  std::string places;
  for (const std::string& place : survey->guessed) places += (places.empty() ? "" : ", ") + place;
  form.line(words.say("sheet.form.guessed_list", {{"places", places, ""}}));
}

}  // namespace

void add_blank_form(Sheets& sheets) {
  head_page(sheets, nullptr);
  slope_page(sheets, nullptr);
  wall_page(sheets, nullptr, nullptr);
  stack_page(sheets, nullptr, nullptr);
}

void add_survey_form(Sheets& sheets) {
  const job::Survey& survey = sheets.sources().survey;
  head_page(sheets, &survey);
  for (const job::Slope& slope : survey.slopes) {
    slope_page(sheets, &slope);
    for (const job::Junction& junction : slope.junctions) {
      const bool stands =
          junction.kind == job::JunctionKind::stack || junction.kind == job::JunctionKind::pipe;
      (stands ? stack_page : wall_page)(sheets, &slope, &junction);
    }
  }
}

}  // namespace lapwright::sheets
