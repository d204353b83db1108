// The proof: each figure with its source, each choice, who measured, and boxes for photographs to be taken
// before the work is covered up.
#include "pages.h"
#include "water.h"

#include <lapwright/draw/font.h>
#include <lapwright/practice/why_text.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace lapwright::sheets {

namespace {

using draw::Weight;

// The paragraph of practice::why_figure: its first line is the sentence, the indented ones are the sum.
void say_why(Flow& flow, const std::string& text) {
  std::size_t begin = 0;
  bool first = true;
  while (begin < text.size()) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::size_t words = std::min(text.find_first_not_of(' ', begin), end);
    const double indent = first ? 2 : 2 + 1.2 * static_cast<double>(words - begin);
    if (words < end) {
      // A sentence stays with its sum.
      if (first) flow.need(draw::line_height(kNumber) * 4);
      flow.paragraph(text.substr(words, end - words), kNumber, indent,
                     first ? Weight::bold : Weight::regular);
    }
    first = false;
    begin = end + 1;
  }
  flow.gap(2);
}

// Figures that read alike are told once, with every mark that they hold for.
void add_figures(Flow& flow, const Sources& sources, const Words& words) {
  const auto why = [&](std::string_view kind, const job::Figure& figure) {
    return practice::why_figure(kind, figure, sources.pack, sources.catalogue, sources.survey.shown_in);
  };
  for (const job::SetOut& set_out : sources.plan.set_out) {
    if (set_out.figures.empty()) continue;
    flow.heading(words.say("sheet.proof_set_out", {{"slope", set_out.slope, ""}}));
    for (const job::Figure& figure : set_out.figures) say_why(flow, why("setout", figure));
  }
  struct Told {
    std::string kind;
    std::string text;
    std::vector<std::string> marks;
  };
  std::vector<Told> told;
  for (const job::Piece* piece : distinct_pieces(sources.plan)) {
    for (const job::Figure& figure : piece->figures) {
      std::string text = why(piece->kind, figure);
      const auto like = std::find_if(told.begin(), told.end(), [&](const Told& one) {
        return one.kind == piece->kind && one.text == text;
      });
      if (like != told.end()) {
        like->marks.push_back(piece->mark);
      } else {
        told.push_back({piece->kind, std::move(text), {piece->mark}});
      }
    }
  }
  std::string heading;
  for (const Told& one : told) {
    std::string marks;
    for (const std::string& mark : one.marks) marks += (marks.empty() ? "" : ", ") + mark;
    const std::string now =
        words.say("sheet.proof_piece", {{"marks", marks, ""}, {"kind", words.kind(one.kind), ""}});
    if (now != heading) {
      heading = now;
      flow.need(draw::line_height(kNumber) * 8);  // no heading without its first sum
      flow.heading(now);
    }
    say_why(flow, one.text);
  }
}

// What is bought and worked, each with its sum: there the waste has its name.
void add_quantities(Flow& flow, const Sources& sources, const Words& words) {
  std::string heading;
  for (const job::EstimateLine& line : sources.plan.estimate.lines) {
    const std::string now =
        words.say("sheet.proof_quantities", {{"group", words.say("group." + line.group), ""}});
    if (now != heading) {
      heading = now;
      flow.need(draw::line_height(kNumber) * 8);  // no heading without its first sum
      flow.heading(now);
    }
    flow.need(draw::line_height(kNumber) * 5);
    flow.paragraph(line.text + (line.slope.empty() ? "" : " (" + line.slope + ")"), kNumber, 2);
    say_why(flow, practice::why_figure("estimate", line.figure, sources.pack, sources.catalogue,
                                       sources.survey.shown_in));
  }
}

void add_choices(Flow& flow, const Sources& sources, const Words& words) {
  bool any = false;
  for (const job::Choice& choice : sources.plan.choices) {
    if (!choice.taken) continue;
    if (!any) flow.heading(words.say("sheet.proof_choices"));
    any = true;
    const std::string at =
        choice.slope + " / " + choice.junction + (choice.face.empty() ? "" : ", " + choice.face);
    const std::string key = "detail." + choice.detail;
    std::string text = at + ": " + (words.has(key) ? words.say(key) : choice.detail) + ", " +
                       words.say("sheet.judged." + std::string(name_of(choice.level))) + ".";
    if (!choice.text.empty() && choice.level != job::Level::note) text += " " + choice.text;
    if (!choice.source.empty()) text += " [" + choice.source + "]";
    flow.paragraph(text, kNumber, 2);
  }
}

// Boxes as large as a print, two across; each says what has to be seen in it.
void add_photo_boxes(Sheets& sheets) {
  const Words& words = sheets.words();
  std::vector<std::string> captions;
  std::vector<Place> seen;
  for (const job::Piece& piece : sheets.sources().plan.pieces) {
    const Place place{piece.slope, piece.junction};
    if (std::find(seen.begin(), seen.end(), place) != seen.end()) continue;
    seen.push_back(place);
    const std::string at = piece.slope + (piece.junction.empty() ? "" : " / " + piece.junction);
    for (const std::string_view what : {"sheet.photo_before", "sheet.photo_after"})
      captions.push_back(words.say(what, {{"at", at, ""}}));
  }
  constexpr double kHigh = 62;
  constexpr double kStep = 78;
  constexpr std::size_t kAPage = 6;
  const double wide = (kArea.width() - 8) / 2;
  for (std::size_t i = 0; i < captions.size(); ++i) {
    if (i % kAPage == 0) sheets.begin(words.say("sheet.photos"));
    draw::Drawing& page = sheets.page();
    const double left = kArea.left + (i % 2 == 0 ? 0 : wide + 8);
    const std::size_t row = i % kAPage / 2;
    const double top = kArea.top - 2 - kStep * static_cast<double>(row);
    page.add(draw::rectangle(left, top - kHigh, wide, kHigh, draw::LineKind::outline));
    double y = top - kHigh - 5;
    std::vector<std::string> lines = draw::wrapped(captions[i], wide - 2, kNumber);
    constexpr std::size_t kLines = 2;
    if (lines.size() > kLines) {
      lines.resize(kLines);
      lines.back() = draw::shortened(lines.back() + " …", wide - 2, kNumber);
    }
    for (const std::string& line : lines) {
      page.add(text_at(line, {left, y}));
      y -= draw::line_height(kNumber);
    }
  }
}

}  // namespace

void add_proof(Sheets& sheets) {
  const Words& words = sheets.words();
  const Sources& sources = sheets.sources();
  Flow flow(sheets, words.say("sheet.proof"));
  flow.paragraph(words.say("sheet.proof_note"));
  flow.blank(words.say("sheet.measured_by"), sources.survey.measured_by.value_or(""));
  flow.blank(words.say("sheet.measured_on"), sources.survey.date.value_or(""));
  for (const std::string_view key : {"sheet.fitted_by", "sheet.seen_by"}) flow.blank(words.say(key));
  add_choices(flow, sources, words);
  add_figures(flow, sources, words);
  add_quantities(flow, sources, words);
  add_measures(sheets);
  add_water(sheets);
  add_photo_boxes(sheets);
}

}  // namespace lapwright::sheets
