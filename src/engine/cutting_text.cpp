#include "cutting_text.h"

#include <lapwright/practice/money.h>

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace lapwright::engine {

namespace {

struct Line {
  const job::CutRoll* roll = nullptr;
  std::int64_t count = 0;
};

}  // namespace

std::string cutting_text(const job::Cutting& cutting, const practice::Catalogue& catalogue,
                         job::ShownIn shown_in) {
  const auto say = [&](std::string_view key, const job::Params& params) {
    return catalogue.say(key, params, shown_in) + "\n";
  };
  const auto money = [&](double value) { return practice::money_shown(value, cutting.currency); };
  std::string out = say(cutting.invented_yard ? "cut.head_invented" : "cut.head", {});
  std::vector<Line> lines;
  for (const job::CutRoll& roll : cutting.rolls) {
    const auto same = std::find_if(lines.begin(), lines.end(), [&](const Line& line) {
      return line.roll->code == roll.code && line.roll->width == roll.width &&
             line.roll->length == roll.length && line.roll->offcut == roll.offcut;
    });
    if (same == lines.end()) {
      lines.push_back({&roll, roll.count});
    } else {
      same->count += roll.count;
    }
  }
  for (const Line& line : lines) {
    const auto count = static_cast<double>(line.count);
    out += "  " + say(line.roll->offcut ? "cut.from_rack" : "cut.buy",
                      {{"count", count, ""},
                       {"code", static_cast<double>(line.roll->code), ""},
                       {"width", line.roll->width.in_mm(), "mm"},
                       {"length", line.roll->length.in_mm(), "mm"},
                       {"each", line.roll->mass.in_kg(), "kg"},
                       {"all", line.roll->mass.in_kg() * count, "kg"},
                       {"price", money(line.roll->price * count), ""}});
  }
  double any = 0;
  double straight = 0;
  double strips = 0;
  bool best = !cutting.codes.empty();
  for (const job::CutCode& code : cutting.codes) {
    any += code.any;
    straight += code.straight;
    strips += code.strips;
    best = best && code.best_strips;
  }
  out += "  " + say("cut.sums", {{"bought", cutting.bought.in_kg(), "kg"},
                                 {"price", money(cutting.price), ""},
                                 {"used", cutting.used.in_kg(), "kg"},
                                 {"kept", cutting.kept.in_kg(), "kg"},
                                 {"scrap", cutting.scrap.in_kg(), "kg"},
                                 {"scrap_worth", money(cutting.scrap_worth), ""}});
  out += "  " + say("cut.money", {{"cost", money(cutting.cost), ""},
                                  {"cuts", static_cast<double>(cutting.cuts), ""},
                                  {"widths", static_cast<double>(cutting.widths), ""}});
  const auto bound = [&](const char* key, double value, double gap) {
    out += "  " +
           say(key, {{"bound", money(value), ""}, {"gap", practice::percent_shown(std::max(gap, 0.0)), ""}});
  };
  if (best) {
    out += "  " + say("cut.best_strips", {});
  } else {
    bound("cut.bound_strips", strips, cutting.gap_strips);
  }
  if (straight > any + 0.5) bound("cut.bound_straight", straight, cutting.gap_straight);
  bound("cut.bound_any", any, cutting.gap_any);
  const double saved = cutting.hand.bought.in_kg() - cutting.bought.in_kg();
  out += "  " + say(saved > 0 || cutting.hand.cost > cutting.cost ? "cut.hand" : "cut.hand_same",
                    {{"bought", cutting.hand.bought.in_kg(), "kg"},
                     {"saved", saved, "kg"},
                     {"money", money(cutting.hand.cost - cutting.cost), ""}});
  return out;
}

}  // namespace lapwright::engine
