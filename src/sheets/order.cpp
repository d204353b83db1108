// The order for the merchant: what to ask for, without prices. And how the battens are cut.
#include "pages.h"

#include <lapwright/base/numbers.h>
#include <lapwright/draw/font.h>

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace lapwright::sheets {

namespace {

using draw::pt;
using draw::Weight;

bool is_ordered(const job::Plan& plan, const job::EstimateLine& line) {
  if (line.group == "labour" || line.group == "access") return false;
  // Weight in place is no thing to ask for, wedges are made from offcuts; strips stand in where nothing says
  // how rolls are cut.
  if (line.item == "lead.in_place" || line.item == "finishing.rake_out" || line.item == "finishing.chase" ||
      line.item == "fixings.wedges" || line.item == "lead.from_rack") {
    return false;
  }
  return line.item != "lead.strip" || !plan.cutting;
}

// What a merchant is asked for in fewer words than the office keeps; what slopes need alike is one thing to
// him.
struct Short {
  std::string_view item;
  std::string_view key;
};
constexpr std::array<Short, 6> kShort{{
    {"covering.unit", "sheet.order_unit"},
    {"covering.unit_and_half", "sheet.order_unit_and_half"},
    {"covering.eaves_unit", "sheet.order_eaves_unit"},
    {"battens.length", "sheet.order_battens"},
    {"fixings.unit_nails", "sheet.order_unit_nails"},
    {"fixings.batten_nails", "sheet.order_batten_nails"},
}};
constexpr std::array<std::string_view, 5> kCounts{"count", "whole", "cut", "run", "per_m2"};

struct Line {
  const job::EstimateLine* first = nullptr;
  job::Params params;
  double quantity = 0;
  std::vector<std::string> slopes;  // "rear 1086"
};

bool is_count(const job::Param& param) {
  return std::find(kCounts.begin(), kCounts.end(), param.name) != kCounts.end();
}

bool same_thing(const Line& line, const job::EstimateLine& other) {
  if (line.first->item != other.item || other.slope.empty() || line.params.size() != other.params.size()) {
    return false;
  }
  for (std::size_t i = 0; i < other.params.size(); ++i) {
    if (!is_count(other.params[i]) && line.params[i].value != other.params[i].value) return false;
  }
  return true;
}

void add_to(Line& line, const job::EstimateLine& more) {
  line.quantity += more.quantity;
  for (std::size_t i = 0; i < more.params.size(); ++i) {
    auto* sum = std::get_if<double>(&line.params[i].value);
    const auto* of = std::get_if<double>(&more.params[i].value);
    if (sum != nullptr && of != nullptr && more.params[i].name == "count") *sum += *of;
  }
}

std::vector<Line> lines_of(const Sources& sources, const Words& words) {
  std::vector<Line> out;
  for (const job::EstimateLine& line : sources.plan.estimate.lines) {
    if (!is_ordered(sources.plan, line)) continue;
    auto like = std::find_if(out.begin(), out.end(), [&](const Line& one) { return same_thing(one, line); });
    if (like == out.end()) {
      out.push_back({&line, line.params, line.quantity, {}});
      like = out.end() - 1;
    } else {
      add_to(*like, line);
    }
    if (!line.slope.empty()) {
      like->slopes.push_back(line.slope + " " + words.value(line.quantity, line.unit, ShownHow::up));
    }
  }
  return out;
}

std::string text_of(const Line& line, const Words& words) {
  std::string text = line.first->text;
  for (const Short& one : kShort) {
    if (one.item != line.first->item) continue;
    job::Params params = line.params;
    for (job::Param& param : params) {
      const auto* key = std::get_if<std::string>(&param.value);
      if (param.unit == "key" && key != nullptr) param = {param.name, words.say(*key), ""};
    }
    text = words.say(one.key, params);
  }
  if (line.slopes.size() < 2) return text;
  std::string by_slope;
  for (const std::string& slope : line.slopes) by_slope += (by_slope.empty() ? "" : ", ") + slope;
  return text + " (" + by_slope + ")";
}

// A tick box, the quantity in large type, and what it is.
void say_line(Flow& flow, const Words& words, const Line& line) {
  const double indent = 52;
  const std::vector<std::string> lines =
      draw::wrapped(text_of(line, words), kArea.width() - indent - 2, kNumber, Weight::regular);
  const double height = std::max(9.0, draw::line_height(kNumber) * static_cast<double>(lines.size()) + 3);
  draw::Drawing& page = flow.need(height);
  const double top = flow.y();
  page.add(draw::line({kArea.left, top}, {kArea.right, top}, draw::LineKind::thin));
  page.add(draw::rectangle(kArea.left + 1, top - 7, 5, 5, draw::LineKind::outline));
  const std::string quantity = words.value(line.quantity, line.first->unit, ShownHow::up);
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
  const std::vector<Line> lines = lines_of(sheets.sources(), words);
  if (lines.empty()) return;
  Flow flow(sheets, words.say("sheet.order"));
  flow.paragraph(words.say("sheet.order_note"));
  const bool invented = plan.cutting && plan.cutting->invented_yard;
  if (invented) flow.paragraph(words.say("sheet.order_invented"), kNumber, 0, Weight::bold);
  std::string group;
  for (const Line& line : lines) {
    if (line.first->group != group) {
      group = line.first->group;
      flow.heading(words.say("group." + group));
    }
    say_line(flow, words, line);
  }
}

void add_batten_cuts(Sheets& sheets) {
  const Words& words = sheets.words();
  const job::Plan& plan = sheets.sources().plan;
  if (plan.estimate.battens.empty()) return;
  Flow flow(sheets, words.say("sheet.batten_cuts"));
  flow.paragraph(words.say("sheet.batten_cuts_note"));
  std::string slope;
  for (const job::BattenRun& run : plan.estimate.battens) {
    if (run.slope != slope) {
      slope = run.slope;
      flow.heading(slope);
    }
    std::string lengths;
    for (const Length length : run.lengths)
      lengths += (lengths.empty() ? "" : " + ") + words.length(length, ShownHow::up);
    flow.paragraph(words.say("sheet.batten_cut",
                             {{"count", static_cast<double>(run.count), ""}, {"lengths", lengths, ""}}),
                   kNumber, 2);
  }
}

}  // namespace lapwright::sheets
