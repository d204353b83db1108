#include <lapwright/practice/why_text.h>

#include <lapwright/base/numbers.h>

#include <algorithm>
#include <string_view>

namespace lapwright::practice {

namespace {

constexpr int kDecimals = 3;

std::string number(double value) {
  return trimmed(value, kDecimals);
}

// Units as they are written by hand.
std::string unit_text(const std::string& unit) {
  if (unit.empty()) return {};
  if (unit == "deg") return "°";
  if (unit.ends_with("m2")) return " " + unit.substr(0, unit.size() - 1) + "²";
  return " " + unit;
}

bool is_name_start(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}
bool is_name(char c) {
  return is_name_start(c) || (c >= '0' && c <= '9');
}

// "a published guide: NHBC Standards 7.2"; once only where the source says no more than the standing.
std::string standing_and_source(job::Standing standing, const std::string& source, const Catalogue& catalogue,
                                job::ShownIn shown_in) {
  const std::string said = catalogue.say("standing." + std::string(name_of(standing)), {}, shown_in);
  return source.empty() || source == said || standing == job::Standing::geometry ? said
                                                                                 : said + ": " + source;
}

}  // namespace

std::string sentence_of(std::string_view kind, const job::Figure& figure, const Catalogue& catalogue,
                        job::ShownIn shown_in) {
  const std::string key = "figure." + std::string(kind) + "." + figure.name;
  job::Params params;
  for (const job::Term& term : figure.terms) params.push_back({term.symbol, term.value, term.unit});
  params.push_back({"value", figure.value, figure.unit});
  return catalogue.say(key, params, shown_in);
}

std::string sum_of(const job::Figure& figure) {
  const std::string_view formula = figure.formula;
  std::string out;
  for (std::size_t i = 0; i < formula.size();) {
    if (!is_name_start(formula[i])) {
      out += formula[i++];
      continue;
    }
    std::size_t end = i;
    while (end < formula.size() && is_name(formula[end])) ++end;
    const std::string_view name = formula.substr(i, end - i);
    const job::Term* term = nullptr;
    for (const job::Term& t : figure.terms) {
      if (t.symbol == name) term = &t;
    }
    out += term != nullptr ? number(term->value) : std::string(name);
    i = end;
  }
  return out;
}

std::string origin_of(const job::Term& term, const Pack& pack, const Catalogue& catalogue,
                      job::ShownIn shown_in) {
  if (term.from.starts_with("rule ")) {
    const Rule* rule = pack.find(std::string_view(term.from).substr(5));
    if (rule == nullptr) return term.from;
    return "rule " + rule->name + ", " +
           standing_and_source(rule->standing, rule->source, catalogue, shown_in);
  }
  const std::string key = "from." + term.from;
  return catalogue.has(key) ? catalogue.say(key, {}, shown_in) : term.from;
}

std::string why_figure(std::string_view kind, const job::Figure& figure, const Pack& pack,
                       const Catalogue& catalogue, job::ShownIn shown_in) {
  std::string out = sentence_of(kind, figure, catalogue, shown_in) + "\n";
  const std::string sum = sum_of(figure);
  out += "    " + figure.name + " = " + figure.formula;
  if (sum != number(figure.value)) out += " = " + sum;
  out += " = " + number(figure.value);
  out += unit_text(figure.unit);
  if (shown_in == job::ShownIn::inches && figure.unit == "mm") {
    out += " (" + shown(figure.value, figure.unit, shown_in) + ")";
  }
  out += "\n";
  for (const job::Term& term : figure.terms) {
    out += "      " + term.symbol + ": " + number(term.value) + unit_text(term.unit) + ", " +
           origin_of(term, pack, catalogue, shown_in) + "\n";
  }
  out += "    " + standing_and_source(figure.standing, figure.source, catalogue, shown_in) + "\n";
  if (const Rule* rule = figure.rule.empty() ? nullptr : pack.find(figure.rule)) {
    for (const Alternative& other : rule->alternatives) {
      out += "    others print " + shown(other.value, rule->unit, shown_in) + ": " + other.source + "\n";
    }
  }
  return out;
}

std::string place_in_words(const job::Difference& difference, const Catalogue& catalogue) {
  if (difference.what != "quantity" && difference.what != "price") return difference.where;
  const auto said = [&](const std::string& key) { return catalogue.say(key, {}, job::ShownIn::mm); };
  if (catalogue.has("price." + difference.where)) return said("price." + difference.where);
  // SLOPE / ITEM, SIZE (NUMBER): a slope may be called anything, an item has no space in it.
  const std::string& where = difference.where;
  const std::size_t slash = where.rfind(" / ");
  const std::size_t begin = slash == std::string::npos ? 0 : slash + 3;
  const std::size_t end = std::min(where.find_first_of(" ,", begin), where.size());
  const std::string key = "short." + where.substr(begin, end - begin);
  if (!catalogue.has(key)) return where;
  return where.substr(0, begin) + said(key) + where.substr(end);
}

std::string name_in_words(const job::Difference& difference) {
  std::string out = difference.name;
  std::replace(out.begin(), out.end(), '_', ' ');
  return out;
}

}  // namespace lapwright::practice
