// The quote for the customer; and, apart from it, the price line by line for whoever has to argue with it.
#include "pages.h"

#include <lapwright/base/numbers.h>
#include <lapwright/draw/font.h>
#include <lapwright/practice/money.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace lapwright::sheets {

namespace {

using draw::pt;
using draw::Weight;

std::string money(const job::Price& price, std::int64_t amount) {
  return practice::money_shown(static_cast<double>(amount), price.currency);
}

// Words at the left, an amount at the right edge.
void amount_line(Flow& flow, const std::string& text, const std::string& amount,
                 Weight weight = Weight::regular, double size = kNumber) {
  const double room = kArea.width() - draw::text_width(amount, size, weight) - 12;
  const std::vector<std::string> lines = draw::wrapped(text, room, size, weight);
  const double step = draw::line_height(size);
  draw::Drawing& page = flow.need(step * static_cast<double>(lines.size()) + 1.5);
  double y = flow.y() - step;
  page.add(
      text_at(amount, {kArea.right - 2, y + draw::descender_depth(size)}, size, weight, draw::Anchor::end));
  for (const std::string& line : lines) {
    page.add(text_at(line, {kArea.left + 2, y + draw::descender_depth(size)}, size, weight));
    y -= step;
  }
  flow.gap(step * static_cast<double>(lines.size()) + 1.5);
}

double figure(const job::Piece& piece, std::string_view name) {
  for (const job::Figure& one : piece.figures) {
    if (one.name == name) return one.value;
  }
  return 0;
}

// One line for each kind of piece at each place: how many, which code, how wide, which lap, what it weighs.
void what_is_done(Flow& flow, const Sources& sources, const Words& words) {
  struct Line {
    const job::Piece* first = nullptr;
    std::int64_t count = 0;
    double kg = 0;
    double lap = 0;  // the least; 0: none
    Length width;    // the widest
  };
  std::vector<Line> lines;
  for (const job::Piece& piece : sources.plan.pieces) {
    if (piece.wrong) continue;
    auto like = std::find_if(lines.begin(), lines.end(), [&](const Line& line) {
      return line.first->kind == piece.kind && line.first->slope == piece.slope &&
             line.first->junction == piece.junction && line.first->code == piece.code;
    });
    if (like == lines.end()) {
      lines.emplace_back().first = &piece;
      like = lines.end() - 1;
    }
    like->count += piece.count;
    like->kg += piece.mass.in_kg() * static_cast<double>(piece.count);
    like->width = max(like->width, piece.width);
    const double lap = figure(piece, "lap");
    if (lap > 0) like->lap = like->lap > 0 ? std::min(like->lap, lap) : lap;
  }
  std::string place;
  for (const Line& line : lines) {
    const std::string at =
        line.first->slope + (line.first->junction.empty() ? "" : " / " + line.first->junction);
    if (at != place) {
      flow.gap(1);
      flow.paragraph(at, kNumber, 1, Weight::bold);
      place = at;
    }
    std::string text = words.say("sheet.quote_piece", {{"count", static_cast<double>(line.count), ""},
                                                       {"kind", words.kind(line.first->kind), ""},
                                                       {"width", line.width.in_mm(), "mm"},
                                                       {"kg", line.kg, "kg"}});
    if (line.first->code) {
      text += ", " + words.say("sheet.code", {{"code", static_cast<double>(*line.first->code), ""}});
    } else {
      text += ", " + line.first->metal;
    }
    if (line.lap > 0) text += ", " + words.say("sheet.quote_lap", {{"lap", line.lap, "mm"}});
    flow.paragraph(text, kNumber, 4);
  }
}

void warn(Flow& flow, const Words& words, const job::Price& price) {
  if (price.invented) flow.paragraph(words.say("sheet.prices_invented"), pt(13), 0, Weight::bold);
  if (price.missing > 0) {
    flow.paragraph(words.say("sheet.prices_missing", {{"count", static_cast<double>(price.missing), ""}}),
                   pt(13), 0, Weight::bold);
  }
}

const job::PriceSum* sum_named(const job::Price& price, std::string_view name) {
  for (const job::PriceSum& sum : price.sums) {
    if (sum.name == name) return &sum;
  }
  return nullptr;
}

std::string percent(std::int64_t hundredths) {
  return trimmed(static_cast<double>(hundredths) / 100, 2) + " %";
}

void totals(Flow& flow, const Words& words, const job::Price& price) {
  for (const std::string_view name : {"net", "vat", "total"}) {
    const job::PriceSum* sum = sum_named(price, name);
    if (sum == nullptr) continue;
    const bool total = name == "total" && price.vat.has_value();
    std::string text = words.say("price." + std::string(name));
    if (name == "vat") text += ", " + percent(price.vat.value_or(0));
    if (name == "total" && !price.vat) continue;  // the net is all there is, said below
    amount_line(flow, text, money(price, sum->amount), total ? Weight::bold : Weight::regular, pt(14));
  }
  if (!price.vat) flow.paragraph(words.say("sheet.quote_no_vat"), kNumber, 2);
}

void add_sum_page(Sheets& sheets, const job::Price& price) {
  const Words& words = sheets.words();
  Flow flow(sheets, words.say("sheet.price"));
  flow.paragraph(words.say("sheet.price_note"));
  if (!price.yard.empty()) flow.paragraph(words.say("sheet.price_yard", {{"yard", price.yard, ""}}));
  warn(flow, words, price);
  std::string group;
  for (const job::PriceLine& line : price.lines) {
    if (line.group != group) {
      group = line.group;
      flow.heading(words.say("group." + group));
    }
    std::string text = line.text + (line.slope.empty() ? "" : " (" + line.slope + ")") + ": ";
    if (line.price && line.amount) {
      text += words.say("price.times", {{"quantity", trimmed(line.quantity, 2), ""},
                                        {"price", money(price, *line.price), ""},
                                        {"per", words.say("price.per." + line.per), ""}});
      amount_line(flow, text, money(price, *line.amount));
    } else {
      text += trimmed(line.quantity, 2) + " " + words.say("price.per." + line.per);
      amount_line(flow, text, words.say("price.missing"), Weight::bold);
    }
  }
  flow.need((draw::line_height(kNumber) + 1.5) * static_cast<double>(price.sums.size()) + 14);
  flow.heading(words.say("sheet.price_sum"));
  for (const job::PriceSum& sum : price.sums) {
    const bool total = sum.name == "total" || sum.name == "net";
    std::string text = words.say("price." + sum.name);
    for (const job::Term& term : sum.figure.terms) {
      if (term.from == "yard") text += ", " + trimmed(term.value, 2) + " %";
    }
    amount_line(flow, text, money(price, sum.amount), total ? Weight::bold : Weight::regular);
  }
}

}  // namespace

void add_quote(Sheets& sheets) {
  const Sources& sources = sheets.sources();
  if (!sources.plan.price) return;
  const job::Price& price = *sources.plan.price;
  const Words& words = sheets.words();
  Flow flow(sheets, words.say("sheet.quote"));
  flow.paragraph(draw::shortened(sources.plan.title, kArea.width() * 1.9, pt(18), Weight::bold), pt(18), 0,
                 Weight::bold);
  warn(flow, words, price);
  flow.blank(words.say("sheet.quote_for"));
  flow.blank(words.say("sheet.quote_from"));
  flow.blank(words.say("sheet.quote_date"));
  flow.heading(words.say("sheet.quote_what"));
  what_is_done(flow, sources, words);
  for (const job::Finding& finding : sources.plan.findings) {
    if (finding.level != job::Level::wrong) continue;
    flow.paragraph(words.say("level.wrong") + ": " + finding.where + ": " + finding.text, kNumber, 2,
                   Weight::bold);
  }
  flow.heading(words.say("sheet.quote_also"));
  std::set<std::string> in_groups;
  for (const job::PriceLine& line : price.lines) {
    if (line.group == "lead" || !in_groups.insert(line.group).second) continue;
    flow.paragraph("– " + words.say("group." + line.group), kNumber, 2);
  }
  in_groups.insert("lead");
  constexpr double kPriceHigh = 48;  // heading, three sums, how long it holds: they stay together
  flow.need(kPriceHigh);
  flow.heading(words.say("sheet.quote_price"));
  totals(flow, words, price);
  flow.paragraph(price.valid_days > 0
                     ? words.say("sheet.quote_valid", {{"days", static_cast<double>(price.valid_days), ""}})
                     : words.say("sheet.quote_valid_open"),
                 kNumber, 2);
  flow.heading(words.say("sheet.quote_not_included"));
  std::set<std::string> said;
  for (const job::EstimateLine& line : sources.plan.estimate.lines) {
    if (in_groups.contains(line.group) || !said.insert(line.group).second) continue;
    flow.paragraph("– " + words.say("group." + line.group), kNumber, 2);
  }
  for (const std::string& one : price.not_included) flow.paragraph("– " + one, kNumber, 2);
  flow.paragraph("– " + words.say("sheet.quote_found_later"), kNumber, 2);
  if (!price.provisional.empty()) {
    flow.heading(words.say("sheet.quote_provisional"));
    for (const job::Price::Provisional& one : price.provisional)
      amount_line(flow, one.what, money(price, one.price));
  }
}

void add_price(Sheets& sheets) {
  if (sheets.sources().plan.price) add_sum_page(sheets, *sheets.sources().plan.price);
}

}  // namespace lapwright::sheets
