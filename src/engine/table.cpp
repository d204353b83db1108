#include "table.h"

#include "cutting_text.h"

#include <lapwright/base/numbers.h>
#include <lapwright/practice/money.h>

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace lapwright::engine {

namespace {

using practice::shown;

std::string length(Length value, job::ShownIn shown_in) {
  return shown(value.in_mm(), "mm", shown_in);
}

// What is cut to this length must not fall short of it.
std::string cut_length(Length value, job::ShownIn shown_in) {
  return shown(value.in_mm(), "mm", shown_in, practice::ShownHow::up);
}

// Display width: one column a code point is right for everything that this table prints.
std::size_t columns(std::string_view text) {
  std::size_t n = 0;
  for (const char c : text) n += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
  return n;
}

std::string padded(const std::string& text, std::size_t width, bool right) {
  const std::size_t have = columns(text);
  const std::string space(have < width ? width - have : 0, ' ');
  return right ? space + text : text + space;
}

class Grid {
 public:
  explicit Grid(std::vector<std::string> head) { rows_.push_back(std::move(head)); }
  void add(std::vector<std::string> row) { rows_.push_back(std::move(row)); }

  std::string text(const std::vector<bool>& right) const {
    std::vector<std::size_t> widths(rows_.front().size(), 0);
    for (const auto& row : rows_) {
      for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], columns(row[i]));
    }
    std::string out;
    for (const auto& row : rows_) {
      std::string line = " ";
      for (std::size_t i = 0; i < row.size(); ++i) line += " " + padded(row[i], widths[i], right[i]) + " ";
      while (!line.empty() && line.back() == ' ') line.pop_back();
      out += line + "\n";
    }
    return out;
  }

 private:
  std::vector<std::vector<std::string>> rows_;
};

std::string set_out_text(const job::SetOut& out, job::ShownIn shown_in) {
  std::string text = fmt::format("{}: {} courses, gauge {}, headlap {}\n", out.slope, out.courses,
                                 length(out.gauge, shown_in), length(out.headlap, shown_in));
  for (const job::SetAlternative& a : out.headlaps) {
    text += fmt::format("  headlap {} {}{}\n", shown(a.value, "mm", shown_in), a.source,
                        a.chosen ? "  (used)" : "");
  }
  text += "  batten marks, upper edge from the tail of the eaves course:";
  constexpr std::size_t kPerLine = 10;
  constexpr std::size_t kMost = 30;
  std::size_t n = 0;
  for (const job::Batten& batten : out.battens) {
    if (n == kMost) {
      text += fmt::format("\n    ... {} more in plan.json", out.battens.size() - kMost);
      break;
    }
    text += n % kPerLine == 0 ? "\n    " : "  ";
    text += shown_in == job::ShownIn::mm ? trimmed(batten.mark.in_mm(), 0) : length(batten.mark, shown_in);
    ++n;
  }
  return text + "\n";
}

std::string pieces_text(const job::Plan& plan, const practice::Catalogue& catalogue, job::ShownIn shown_in) {
  Grid grid({"mark", "piece", "at", "count", "length", "width", "code", "kg each", "kg"});
  double total = 0;
  for (const job::Piece& piece : plan.pieces) {
    const double mass = piece.mass.in_kg() * static_cast<double>(piece.count);
    if (!piece.wrong) total += mass;
    grid.add(
        {piece.mark, piece.kind, piece.slope + " / " + piece.junction, std::to_string(piece.count),
         cut_length(piece.length, shown_in), cut_length(piece.width, shown_in),
         piece.code ? std::to_string(*piece.code) : piece.metal, fmt::format("{:.2f}", piece.mass.in_kg()),
         piece.wrong ? catalogue.say("sheet.not_to_be_made", {}, shown_in) : fmt::format("{:.1f}", mass)});
  }
  return grid.text({false, false, false, true, true, true, true, true, true}) +
         fmt::format("  lead in place: {:.1f} kg\n", total);
}

// Group after group; lengths and weights as bought, hours by what is done.
std::string estimate_text(const job::Plan& plan, const practice::Catalogue& catalogue,
                          job::ShownIn shown_in) {
  std::string text;
  std::string group;
  for (const job::EstimateLine& line : plan.estimate.lines) {
    if (line.group != group) {
      group = line.group;
      text += catalogue.say("group." + group, {}, shown_in) + "\n";
    }
    const std::string quantity = shown(line.quantity, line.unit, shown_in, practice::ShownHow::up);
    text += "  " + padded(quantity, 10, true) + "  " + line.text +
            (line.slope.empty() ? "" : " (" + line.slope + ")") + "\n";
  }
  return text;
}

// Line by line with the sum under it; what nobody priced says so.
std::string price_text(const job::Price& price, const practice::Catalogue& catalogue) {
  const auto say = [&](std::string_view key) { return catalogue.say(key, {}, job::ShownIn::mm); };
  const auto money = [&](std::int64_t amount) {
    return practice::money_shown(static_cast<double>(amount), price.currency);
  };
  Grid grid({say("sheet.price"), say("price.quantity"), "", say("price.price"), say("price.amount")});
  for (const job::PriceLine& line : price.lines) {
    const std::string key = "short." + line.item;
    grid.add(
        {(catalogue.has(key) ? say(key) : line.item) + (line.slope.empty() ? "" : " (" + line.slope + ")"),
         trimmed(line.quantity, 2), say("price.per." + line.per), line.price ? money(*line.price) : "",
         line.amount ? money(*line.amount) : say("price.missing")});
  }
  for (const job::PriceSum& sum : price.sums)
    grid.add({say("price." + sum.name), "", "", "", money(sum.amount)});
  std::string text = grid.text({false, true, false, true, true});
  if (price.invented) text += "  " + say("sheet.prices_invented") + "\n";
  if (price.missing > 0) {
    text += "  " +
            catalogue.say("sheet.prices_missing", {{"count", static_cast<double>(price.missing), ""}},
                          job::ShownIn::mm) +
            "\n";
  }
  return text;
}

}  // namespace

std::string findings_text(const std::vector<job::Finding>& findings, const practice::Catalogue& catalogue) {
  std::string text;
  for (const job::Finding& f : findings) {
    text += catalogue.say("level." + std::string(name_of(f.level)), {}, job::ShownIn::mm) + ": " + f.where +
            ": " + f.text;
    if (!f.source.empty() && f.source != "survey" && f.source != "geometry") text += " [" + f.source + "]";
    text += "\n";
  }
  return text;
}

std::string plan_table(const job::Survey& survey, const job::Plan& plan,
                       const practice::Catalogue& catalogue) {
  std::string text = (survey.title.empty() ? std::string("(no title)") : survey.title) + "   plan " +
                     plan.fingerprint + "\n\n";
  for (const job::SetOut& out : plan.set_out) {
    if (out.courses > 0) text += set_out_text(out, survey.shown_in) + "\n";
  }
  if (!plan.pieces.empty()) text += pieces_text(plan, catalogue, survey.shown_in) + "\n";
  if (plan.cutting && !plan.cutting->rolls.empty()) {
    text += cutting_text(*plan.cutting, catalogue, survey.shown_in) + "\n";
  }
  if (!plan.estimate.lines.empty()) text += estimate_text(plan, catalogue, survey.shown_in) + "\n";
  if (plan.price) text += price_text(*plan.price, catalogue) + "\n";
  if (!plan.findings.empty()) text += findings_text(plan.findings, catalogue) + "\n";
  for (const job::OverrideUsed& o : plan.practice.overrides) {
    text += fmt::format("this job's own: {} {} (pack: {})\n", o.rule, shown(o.value, o.unit, survey.shown_in),
                        shown(o.pack_value, o.unit, survey.shown_in));
  }
  for (const job::MemoryUsed& m : plan.practice.from_memory) {
    text += fmt::format("from memory, not seen in print: {} {}\n", m.rule,
                        shown(m.value, m.unit, survey.shown_in));
  }
  text += "\n" + catalogue.say("caution.short", {}, survey.shown_in) + "\n";
  return text;
}

}  // namespace lapwright::engine
