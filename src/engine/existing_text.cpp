#include "existing_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace lapwright::engine {

namespace {

using job::Suspect;

class Teller {
 public:
  explicit Teller(const Planned& planned) : planned_(planned) {}

  std::string say(std::string_view key, const job::Params& params = {}) const {
    return planned_.catalogue.say(key, params, planned_.survey.shown_in);
  }
  std::string kind(const std::string& name) const {
    const std::string key = "sheet.kind." + name;
    return planned_.catalogue.has(key) ? say(key) : name;
  }

  std::vector<std::string> told(const Suspect& s) const {
    std::vector<std::string> out{what(s), when(s)};
    if (!s.fit.empty()) out.push_back(mend(s));
    return out;
  }

 private:
  std::string what(const Suspect& s) const {
    if (s.found.empty()) return say("existing.found.nothing");
    job::Params params{{"piece", s.found == "detail" ? s.piece : kind(s.piece), ""},
                       {"course", static_cast<double>(s.course), ""}};
    if (s.as_built >= 0) {
      const job::AsBuilt& found = planned_.survey.as_built[static_cast<std::size_t>(s.as_built)];
      params.push_back({"by", found.by ? found.by->in_mm() : 0, "mm"});
      params.push_back({"number", static_cast<double>(found.number.value_or(0)), ""});
      if (found.number)
        return say("existing.number", params) + " " + say("existing.found." + s.found, params);
    }
    const std::string which = s.course > 0 ? say("existing.course", params) + " " : "";
    return which + say("existing.found." + s.found, params);
  }
  std::string when(const Suspect& s) const {
    const job::Params params{{"drift", s.drift, "deg"},
                             {"covering_drift", s.covering_drift, "deg"},
                             {"climb", std::max(s.climb, 0.0), "mm"},
                             {"covering_climb", s.covering_climb, "mm"},
                             {"rise", s.rise, "mm"},
                             {"wind", std::round(s.wind), ""},
                             {"s", s.s, "mm"},
                             {"from", s.wind_from.value_or(0), "deg"}};
    std::string text = say("existing.gives." + std::string(name_of(s.gives)), params);
    if (s.wind_from) text += " " + say("existing.wind", params);
    return text;
  }
  std::string mend(const Suspect& s) const {
    std::string marks;
    for (const Suspect::Fit& fit : s.fit) {
      marks += (marks.empty() ? "" : ", ") + std::to_string(fit.count) + " × " + fit.mark + " (" +
               kind(fit.kind) + ")";
    }
    const job::Params params{{"first", static_cast<double>(s.strip_from), ""},
                             {"last", static_cast<double>(s.strip_to), ""},
                             {"marks", marks, ""}};
    return say(s.strip_from > 0 ? "existing.strip" : "existing.no_strip", params) + " " +
           say("existing.fit", params);
  }

  const Planned& planned_;
};

}  // namespace

void put_existing_in_words(Planned& planned) {
  if (!planned.plan.existing) return;
  const Teller teller(planned);
  for (Suspect& suspect : planned.plan.existing->suspects) suspect.texts = teller.told(suspect);
  for (job::Unexplained& leak : planned.plan.existing->unexplained) {
    leak.text = teller.say("existing.unexplained");
    for (const std::string& cause : leak.causes) leak.text += " " + teller.say("existing.cause." + cause);
  }
}

std::string existing_text(const Planned& planned) {
  if (!planned.plan.existing) return {};
  const job::Existing& existing = *planned.plan.existing;
  const Teller teller(planned);
  std::string text = "\n" + teller.say("existing.title") + "\n";
  if (existing.suspects.empty()) text += "  " + teller.say("existing.none") + "\n";
  int number = 0;
  for (const Suspect& s : existing.suspects) {
    text +=
        fmt::format("  {}. {} / {}{}", ++number, s.slope, s.junction, s.face.empty() ? "" : " / " + s.face);
    for (const std::string& line : s.texts) text += "\n     " + line;
    text += "\n";
    for (const std::int64_t leak : s.leaks) {
      const std::string& when = planned.survey.leaks[static_cast<std::size_t>(leak)].when;
      text +=
          "     " +
          teller.say("existing.explains", {{"leak", when.empty() ? std::to_string(leak + 1) : when, ""}}) +
          "\n";
    }
  }
  if (existing.suspects.size() > 1) {
    std::vector<std::pair<std::int64_t, int>> turns;
    for (std::size_t i = 0; i < existing.suspects.size(); ++i)
      turns.emplace_back(existing.suspects[i].hose, static_cast<int>(i) + 1);
    std::sort(turns.begin(), turns.end());
    std::string order;
    for (const auto& [turn, which] : turns) order += (order.empty() ? "" : ", ") + std::to_string(which);
    text += "  " + teller.say("existing.hose", {{"order", order, ""}}) + "\n";
  }
  for (const job::Unexplained& leak : existing.unexplained) {
    text += "  " + (leak.when.empty() ? std::to_string(leak.leak + 1) : leak.when) + ": " + leak.text + "\n";
  }
  return text;
}

std::string odds_text(const Planned& planned) {
  if (planned.plan.odds.empty()) return {};
  const Teller teller(planned);
  std::string text = "\n" + teller.say("odds.title") + "\n";
  std::vector<const job::Odds*> all;
  for (const job::Odds& o : planned.plan.odds) {
    if (o.chance > 0) all.push_back(&o);
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const job::Odds* a, const job::Odds* b) { return a->chance > b->chance; });
  constexpr double kStill = 0.05;  // mm
  if (all.empty()) text += "  " + teller.say("odds.none") + "\n";
  for (const job::Odds* o : all) {
    const job::Params params{{"value", o->value, "mm"},
                             {"limit", o->limit, "mm"},
                             {"chance", std::round(o->chance * 100), ""},
                             {"matters", teller.say("odds.source." + o->matters), ""},
                             {"moves", o->moves, "mm"}};
    text += "  " + o->where + ": " + teller.say("check.name." + o->rule.substr(6), params) + ": " +
            teller.say("odds.line", params) + " " +
            teller.say(o->moves < kStill ? "odds.still" : "odds.matters", params) + "\n";
  }
  return text;
}

}  // namespace lapwright::engine
