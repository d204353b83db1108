// The order for the merchant: what to ask for, without prices, and how the battens are cut.
#include "pages.h"

#include <lapwright/base/numbers.h>
#include <lapwright/draw/font.h>

#include <algorithm>

namespace lapwright::sheets {

namespace {

using draw::pt;
using draw::Weight;

bool is_ordered(const job::Plan& plan, const job::EstimateLine& line) {
  if (line.group == "labour" || line.group == "access") return false;
  // Weight in place is no thing to ask for, wedges are made from offcuts; strips stand in where nothing says
  // how rolls are cut.
  if (line.item == "lead.in_place" || line.item == "finishing.rake_out" || line.item == "finishing.chase" ||
      line.item == "fixings.wedges") {
    return false;
  }
  return line.item != "lead.strip" || !plan.cutting;
}

// A tick box, the quantity in large type, and what it is.
void say_line(Flow& flow, const Words& words, const job::EstimateLine& line) {
  const double indent = 52;
  const std::string text = line.text + (line.slope.empty() ? "" : " (" + line.slope + ")");
  const std::vector<std::string> lines =
      draw::wrapped(text, kArea.width() - indent - 2, kNumber, Weight::regular);
  const double height = std::max(9.0, draw::line_height(kNumber) * static_cast<double>(lines.size()) + 3);
  draw::Drawing& page = flow.need(height);
  const double top = flow.y();
  page.add(draw::line({kArea.left, top}, {kArea.right, top}, draw::LineKind::thin));
  page.add(draw::rectangle(kArea.left + 1, top - 7, 5, 5, draw::LineKind::outline));
  const std::string quantity = words.value(line.quantity, line.unit, ShownHow::up);
  page.add(text_at(quantity, {kArea.left + indent - 5, top - 6.3}, pt(14), Weight::bold, draw::Anchor::end));
  double y = top - 5.8;
  for (const std::string& one : lines) {
    page.add(text_at(one, {kArea.left + indent, y}));
    y -= draw::line_height(kNumber);
  }
  flow.gap(height);
}

}  // namespace

void add_order(Sheets& sheets) {
  const Words& words = sheets.words();
  const job::Plan& plan = sheets.sources().plan;
  const auto ordered = [&](const job::EstimateLine& line) { return is_ordered(plan, line); };
  if (std::none_of(plan.estimate.lines.begin(), plan.estimate.lines.end(), ordered)) return;
  Flow flow(sheets, words.say("sheet.order"));
  flow.paragraph(words.say("sheet.order_note"));
  const bool invented = plan.cutting && plan.cutting->invented_yard;
  if (invented) flow.paragraph(words.say("sheet.order_invented"), kNumber, 0, Weight::bold);
  std::string group;
  for (const job::EstimateLine& line : plan.estimate.lines) {
    if (!ordered(line)) continue;
    if (line.group != group) {
      group = line.group;
      flow.heading(words.say("group." + group));
    }
    say_line(flow, words, line);
  }
  if (plan.estimate.battens.empty()) return;
  flow.need(draw::line_height(kNumber) *
            (6 + static_cast<double>(std::min<std::size_t>(plan.estimate.battens.size(), 12))));
  flow.heading(words.say("sheet.batten_cuts"));
  flow.paragraph(words.say("sheet.batten_cuts_note"));
  for (const job::BattenRun& run : plan.estimate.battens) {
    std::string lengths;
    for (const Length length : run.lengths)
      lengths += (lengths.empty() ? "" : " + ") + words.length(length, ShownHow::up);
    flow.paragraph(words.say(
        "sheet.batten_cut",
        {{"count", static_cast<double>(run.count), ""}, {"slope", run.slope, ""}, {"lengths", lengths, ""}}));
  }
}

}  // namespace lapwright::sheets
