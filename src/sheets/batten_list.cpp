// Running marks to chalk the battens from, in columns, bottom up.
#include "pages.h"

#include <lapwright/draw/font.h>

#include <algorithm>

namespace lapwright::sheets {

void add_batten_lists(Sheets& sheets) {
  const Words& words = sheets.words();
  const double size = draw::pt(14);
  const double step = 7.2;
  for (const job::Slope& slope : sheets.sources().survey.slopes) {
    const job::SetOut* set_out = nullptr;
    for (const job::SetOut& out : sheets.sources().plan.set_out) {
      if (out.slope == slope.name) set_out = &out;
    }
    if (set_out == nullptr || set_out->battens.empty()) continue;
    const bool fascia = slope.overhang.has_value();
    const auto from_fascia = [&](Length mark) {
      return words.tape(mark - slope.overhang.value_or(Length{}));
    };
    double tail_wide = draw::text_width(words.say("sheet.from_tail"), kNumber);
    double fascia_wide = fascia ? draw::text_width(words.say("sheet.from_fascia"), kNumber) : 0;
    for (const job::Batten& batten : set_out->battens) {
      tail_wide = std::max(tail_wide, draw::text_width(words.tape(batten.mark), size, draw::Weight::bold));
      if (fascia) fascia_wide = std::max(fascia_wide, draw::text_width(from_fascia(batten.mark), size));
    }
    const double number_wide = 12;
    const double wide = number_wide + tail_wide + (fascia ? fascia_wide + 5 : 0) + 10;
    const auto columns = static_cast<std::size_t>(std::max(1.0, (kArea.width() + 8) / wide));
    const double head = 30;
    const auto rows = static_cast<std::size_t>((kArea.height() - head - 4) / step);
    const std::size_t n = set_out->battens.size();
    for (std::size_t first = 0; first < n; first += rows * columns) {
      draw::Drawing& page = sheets.begin(words.say("sheet.battens", {{"slope", slope.name, ""}}));
      double y = kArea.top - 4;
      for (const std::string& line :
           draw::wrapped(words.say(fascia ? "sheet.battens_note_fascia" : "sheet.battens_note"),
                         kArea.width() - 4, kNumber)) {
        page.add(text_at(line, {kArea.left + 2, y}));
        y -= draw::line_height(kNumber);
      }
      for (std::size_t c = 0; c < columns; ++c) {
        const std::size_t begin = first + c * rows;
        if (begin >= n) break;
        const double left = kArea.left + 2 + static_cast<double>(c) * wide;
        double row = kArea.top - head;
        page.add(text_at(words.say("sheet.from_tail"), {left + number_wide + tail_wide, row + 2}, kNumber,
                         draw::Weight::bold, draw::Anchor::end));
        if (fascia) {
          page.add(text_at(words.say("sheet.from_fascia"),
                           {left + number_wide + tail_wide + 5 + fascia_wide, row + 2}, kNumber,
                           draw::Weight::regular, draw::Anchor::end));
        }
        for (std::size_t i = begin; i < std::min(n, begin + rows); ++i) {
          row -= step;
          const job::Batten& batten = set_out->battens[i];
          page.add(text_at(std::to_string(i + 1), {left + number_wide - 4, row}, kNumber,
                           draw::Weight::regular, draw::Anchor::end));
          page.add(text_at(words.tape(batten.mark), {left + number_wide + tail_wide, row}, size,
                           draw::Weight::bold, draw::Anchor::end));
          if (fascia) {
            page.add(text_at(from_fascia(batten.mark),
                             {left + number_wide + tail_wide + 5 + fascia_wide, row}, size,
                             draw::Weight::regular, draw::Anchor::end));
          }
          page.add(draw::line({left, row - 1.8}, {left + wide - 10, row - 1.8}, draw::LineKind::thin));
        }
      }
    }
  }
}

}  // namespace lapwright::sheets
