// Two plans side by side: every piece, course, figure, quantity and price that differs.
#include "pages.h"

#include <lapwright/draw/font.h>
#include <lapwright/practice/why_text.h>

#include <algorithm>

namespace lapwright::sheets {

namespace {

using draw::Weight;

constexpr double kNameWide = 62;

// Name, before, after, in three columns that wrap.
void say_row(Flow& flow, const std::string& name, const std::string& a, const std::string& b, Weight weight) {
  const double side = (kArea.width() - kNameWide - 4) / 2;
  const std::vector<std::string> names = draw::wrapped(name, kNameWide - 4, kNumber, weight);
  const std::vector<std::string> left = draw::wrapped(a, side - 3, kNumber, weight);
  const std::vector<std::string> right = draw::wrapped(b, side - 3, kNumber, weight);
  const std::size_t n = std::max({names.size(), left.size(), right.size(), std::size_t{1}});
  const double step = draw::line_height(kNumber);
  for (std::size_t i = 0; i < n; ++i) {
    draw::Drawing& page = flow.need(step);
    flow.gap(step);
    const auto put = [&](const std::vector<std::string>& lines, double x) {
      if (i < lines.size() && !lines[i].empty()) {
        page.add(text_at(lines[i], {x, flow.y() + draw::descender_depth(kNumber)}, kNumber, weight));
      }
    };
    put(names, kArea.left + 4);
    put(left, kArea.left + kNameWide);
    put(right, kArea.left + kNameWide + side + 2);
  }
}

}  // namespace

draw::Document comparison(const Sources& a, const job::Plan& b, const std::vector<job::Difference>& all,
                          PaperSize size) {
  Sheets sheets(a, size);
  const Words& words = sheets.words();
  Flow flow(sheets, words.say("sheet.compare"));
  flow.paragraph(words.say("sheet.compare_note", {{"a", a.plan.fingerprint, ""}, {"b", b.fingerprint, ""}}));
  if (b.title != a.plan.title) flow.paragraph("B: " + b.title);
  if (all.empty()) flow.paragraph(words.say("compare.none"));
  std::string what;
  std::string where;
  for (const job::Difference& one : all) {
    if (one.what != what) {
      what = one.what;
      where.clear();
      flow.heading(words.say("compare." + what));
      say_row(flow, "", "A", "B", Weight::bold);
    }
    if (one.where != where) {
      where = one.where;
      flow.need(draw::line_height(kNumber) * 2);  // no place without what differs there
      flow.paragraph(practice::place_in_words(one, words.catalogue()), kNumber, 1, Weight::bold);
    }
    const std::string absent = words.say("compare.absent");
    say_row(flow, practice::name_in_words(one), one.a.empty() ? absent : one.a,
            one.b.empty() ? absent : one.b, Weight::regular);
  }
  return sheets.done();
}

}  // namespace lapwright::sheets
