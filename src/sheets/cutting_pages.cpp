// The cutting list: what to buy, then each roll to scale with its steps for knife, straight edge and tape.
#include "pages.h"
#include "roll_view.h"
#include "step_view.h"

#include <lapwright/draw/font.h>

#include <algorithm>
#include <map>

namespace lapwright::sheets {

namespace {

// "265, 530, 795" of marks, and what comes off: "6 × a, S1, left over".
std::string marks_of(const Words& words, const job::CutStep& step) {
  std::string out;
  for (const Length mark : step.at) out += (out.empty() ? "" : ", ") + words.tape(mark);
  return out;
}

std::string gives_of(const Words& words, const job::CutStep& step) {
  std::string out;
  for (std::size_t i = 0; i < step.gives.size();) {
    std::size_t same = i;
    while (same < step.gives.size() && step.gives[same] == step.gives[i]) ++same;
    const std::string name = step.gives[i].empty() ? words.say("sheet.cutting_left") : step.gives[i];
    out +=
        (out.empty() ? "" : ", ") + (same - i > 1 ? std::to_string(same - i) + " × " : std::string()) + name;
    i = same;
  }
  return out;
}

std::string step_text(const Words& words, const job::CutStep& step, std::int64_t parts) {
  const std::string of = step.part == "roll" ? words.say("sheet.cutting_whole")
                         : parts > 1
                             ? words.say("sheet.cutting_each",
                                         {{"count", static_cast<double>(parts), ""}, {"part", step.part, ""}})
                             : step.part;
  const job::Params params{
      {"part", of, ""}, {"marks", marks_of(words, step), ""}, {"gives", gives_of(words, step), ""}};
  switch (step.way) {
    case job::CutWay::across:
      return words.say("sheet.cutting_across", params);
    case job::CutWay::along:
      return words.say("sheet.cutting_along", params);
    case job::CutWay::teeth:
      break;
  }
  return words.say("sheet.cutting_teeth", params);
}

std::string size_of(const Words& words, const job::CutRoll& roll) {
  return words.say(roll.offcut ? "sheet.cutting_size_rack" : "sheet.cutting_size",
                   {{"code", static_cast<double>(roll.code), ""},
                    {"width", roll.width.in_mm(), "mm"},
                    {"length", roll.length.in_mm(), "mm"},
                    {"mass", roll.mass.in_kg(), "kg"}});
}

void add_shopping(Sheets& sheets, const job::Cutting& cutting) {
  const Words& words = sheets.words();
  Flow flow(sheets, words.say("sheet.cutting"));
  flow.paragraph(words.say(cutting.invented_yard ? "sheet.cutting_note_invented" : "sheet.cutting_note"));
  flow.gap(3);
  struct Line {
    const job::CutRoll* roll = nullptr;
    std::int64_t count = 0;
    std::string names;
  };
  std::vector<Line> lines;
  for (const job::CutRoll& roll : cutting.rolls) {
    auto same = std::find_if(lines.begin(), lines.end(), [&](const Line& line) {
      return line.roll->code == roll.code && line.roll->width == roll.width &&
             line.roll->length == roll.length && line.roll->offcut == roll.offcut;
    });
    if (same == lines.end()) same = lines.insert(lines.end(), Line{&roll, 0, ""});
    same->count += roll.count;
    same->names += (same->names.empty() ? "" : ", ") + roll.name;
  }
  for (const Line& line : lines) {
    flow.paragraph(std::to_string(line.count) + " × " + size_of(words, *line.roll) + "   " + line.names,
                   draw::pt(13), 0, draw::Weight::bold);
  }
  flow.gap(3);
  flow.paragraph(words.say("sheet.cutting_sums", {{"bought", cutting.bought.in_kg(), "kg"},
                                                  {"used", cutting.used.in_kg(), "kg"},
                                                  {"kept", cutting.kept.in_kg(), "kg"},
                                                  {"scrap", cutting.scrap.in_kg(), "kg"},
                                                  {"cuts", static_cast<double>(cutting.cuts), ""}}));
}

void add_roll(Sheets& sheets, const job::CutRoll& roll) {
  const Words& words = sheets.words();
  // The hooked end is at the bottom, so that the tape runs up the page.
  const double room_high = kArea.height() - 34;
  double scale = usual_scale(roll.width.in_mm(), roll.length.in_mm(), 46, room_high);
  // A roll of six metres just misses 1:25, and at 1:50 its marks cannot be read.
  constexpr double kBetween = 1.0 / 30;
  if (scale < kBetween && roll.length.in_mm() * kBetween <= room_high &&
      roll.width.in_mm() * kBetween <= 46) {
    scale = kBetween;
  }
  const draw::Drawing view = roll_view(sheets.sources(), roll, scale, true);
  const draw::Box box = draw::extents(view);
  const std::string name = words.say("sheet.cutting_roll", {{"name", roll.name, ""}});
  draw::Drawing* page = &sheets.begin(name, scale);
  page->add(view, {.move = {kArea.left + 4 - box.left, kArea.bottom + 6 - box.bottom}});
  double left = kArea.left + 4 + box.width() + 8;
  const double right = kArea.right - 2;
  double y = sheets.top() - 6;
  const auto paragraph = [&](const std::string& text, draw::Weight weight, double indent) {
    const double line = draw::line_height(kNumber);
    const std::vector<std::string> lines = draw::wrapped(text, right - left - indent, kNumber, weight);
    if (y - line * static_cast<double>(lines.size()) < kArea.bottom + 2) {
      page = &sheets.begin(name);
      left = kArea.left + 2;
      y = sheets.top() - 6;
    }
    for (const std::string& one : lines) {
      page->add(text_at(one, {left + indent, y}, kNumber, weight));
      y -= line;
    }
  };
  paragraph((roll.count > 1 ? std::to_string(roll.count) + " × " : std::string()) + size_of(words, roll),
            draw::Weight::bold, 0);
  y -= 2;
  const std::map<std::string, RollPart> where = parts_of(roll);
  // How many parts have a name, from the steps that gave it.
  std::map<std::string, std::int64_t> parts{{"roll", 1}};
  std::size_t number = 0;
  for (const job::CutStep& step : roll.cuts) {
    const std::int64_t of = parts[step.part];
    for (const std::string& part : step.gives) {
      if (!part.empty()) parts[part] += of;
    }
    parts[step.part] = 0;
    paragraph(std::to_string(++number) + ". " + step_text(words, step, of), draw::Weight::regular, 0);
    y -= 1.2;
    if (step.part == "roll" && step.way != job::CutWay::teeth) continue;  // that is the large drawing
    const auto part = where.find(step.part);
    if (part == where.end()) continue;
    const draw::Drawing drawn = step_view(sheets.sources(), roll, step, part->second, right - left - 4);
    const draw::Box size = draw::extents(drawn);
    if (y - size.height() < kArea.bottom + 2) {
      page = &sheets.begin(name);
      left = kArea.left + 2;
      y = sheets.top() - 6;
    }
    page->add(drawn, {.move = {left + 4 - size.left, y - size.top}});
    y -= size.height() + 6;
  }
  bool any = false;
  for (const job::CutLeft& piece : roll.left) {
    if (!piece.keep) continue;
    if (!any) y -= 2;
    any = true;
    paragraph(words.say("sheet.cutting_kept",
                        {{"length", piece.length.in_mm(), "mm"}, {"width", piece.width.in_mm(), "mm"}}),
              draw::Weight::bold, 0);
  }
}

}  // namespace

void add_cutting(Sheets& sheets) {
  const std::optional<job::Cutting>& cutting = sheets.sources().plan.cutting;
  if (!cutting || cutting->rolls.empty()) return;
  add_shopping(sheets, *cutting);
  for (const job::CutRoll& roll : cutting->rolls) add_roll(sheets, roll);
}

}  // namespace lapwright::sheets
