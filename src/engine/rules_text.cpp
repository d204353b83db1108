#include "rules_text.h"

#include <string>

namespace lapwright::engine {

std::string rules_text(const practice::Pack& pack, const practice::Catalogue& catalogue) {
  constexpr auto kShown = job::ShownIn::mm;
  std::string out =
      "Practice pack " + pack.name() +
      ". A job sets its own value with \"practice\": {\"rule.name\": value}; the plan lists each.\n";
  for (const practice::Rule& rule : pack.rules()) {
    const auto in_unit = [&](double value) {
      return practice::shown(value, rule.unit, kShown, practice::ShownHow::fine);
    };
    const std::string standing = catalogue.say("standing." + std::string(name_of(rule.standing)), {}, kShown);
    out += "\n" + rule.name + "  " + in_unit(rule.value) + "  (" + standing +
           (rule.source == standing ? std::string() : ": " + rule.source) + ")\n";
    if (!rule.note.empty()) out += "    " + rule.note + "\n";
    if (rule.least) out += "    never less than " + in_unit(*rule.least) + ": " + rule.bound_source + "\n";
    if (rule.most) out += "    never more than " + in_unit(*rule.most) + ": " + rule.bound_source + "\n";
    for (const practice::Alternative& other : rule.alternatives) {
      out += "    others print " + in_unit(other.value) + ": " + other.source + "\n";
    }
  }
  return out;
}

}  // namespace lapwright::engine
