#include "why_json.h"

#include <lapwright/job/json_text.h>
#include <lapwright/practice/why_text.h>

#include <algorithm>

namespace lapwright::engine {

namespace {

using job::JsonText;

void put(JsonText& out, std::string_view key, std::string_view text) {
  out.key(key);
  out.text(text);
}

class Writer {
 public:
  Writer(const practice::Pack& pack, const practice::Catalogue& catalogue, job::ShownIn shown_in)
      : pack_(pack), catalogue_(catalogue), shown_in_(shown_in) {}

  void figure(JsonText& out, std::string_view kind, const job::Figure& figure) const {
    out.open_object();
    put(out, "name", figure.name);
    put(out, "sentence", practice::sentence_of(kind, figure, catalogue_, shown_in_));
    put(out, "shown", shown(figure.value, figure.unit));
    put(out, "formula", figure.formula);
    put(out, "sum", practice::sum_of(figure));
    out.key("terms");
    out.open_list();
    for (const job::Term& term : figure.terms) {
      out.open_object();
      put(out, "symbol", term.symbol);
      put(out, "shown", shown(term.value, term.unit));
      put(out, "from", origin(term));
      if (term.from.starts_with("rule ")) put(out, "rule", std::string_view(term.from).substr(5));
      out.close_object();
    }
    out.close_list();
    put(out, "source", figure.standing == job::Standing::geometry ? "" : figure.source);
    put(out, "standing", standing(figure.standing));
    if (const practice::Rule* decides = figure.rule.empty() ? nullptr : pack_.find(figure.rule)) {
      out.key("rule");
      rule(out, *decides);
    }
    out.close_object();
  }

  void rule(JsonText& out, const practice::Rule& rule) const {
    constexpr int kDecimals = 6;
    out.open_object();
    put(out, "rule", rule.name);
    const std::string label = "label." + rule.name;
    if (catalogue_.has(label)) put(out, "label", catalogue_.say(label, {}, shown_in_));
    out.key("value");
    out.number(rule.value, kDecimals);
    put(out, "shown", fine(rule.value, rule.unit));
    put(out, "unit", rule.unit);
    put(out, "source", rule.source);
    put(out, "standing", standing(rule.standing));
    put(out, "note", rule.note);
    if (rule.least) put(out, "least", fine(*rule.least, rule.unit));
    if (rule.most) put(out, "most", fine(*rule.most, rule.unit));
    if (!rule.bound_source.empty()) put(out, "bound_source", rule.bound_source);
    const double pack_value = rule.overridden ? rule.pack_value : rule.value;
    out.key("pack_value");
    out.number(pack_value, kDecimals);
    put(out, "pack_shown", fine(pack_value, rule.unit));
    out.key("overridden");
    out.flag(rule.overridden);
    out.key("others");
    out.open_list();
    for (const practice::Alternative& other : rule.alternatives) {
      out.open_object();
      out.key("value");
      out.number(other.value, kDecimals);
      put(out, "shown", fine(other.value, rule.unit));
      put(out, "source", other.source);
      put(out, "standing", standing(other.standing));
      out.close_object();
    }
    out.close_list();
    out.close_object();
  }

 private:
  const practice::Pack& pack_;
  const practice::Catalogue& catalogue_;
  job::ShownIn shown_in_;

  // A rule as a person calls it: the name that a job file knows it by stands beside, in "rule".
  std::string origin(const job::Term& term) const {
    std::string out = practice::origin_of(term, pack_, catalogue_, shown_in_);
    constexpr std::string_view kRule = "rule ";
    const std::string label = "label." + term.from.substr(std::min(kRule.size(), term.from.size()));
    if (!term.from.starts_with(kRule) || !catalogue_.has(label)) return out;
    return catalogue_.say(label, {}, shown_in_) + out.substr(term.from.size());
  }
  std::string shown(double value, std::string_view unit) const {
    return practice::shown(value, unit, shown_in_);
  }
  std::string fine(double value, std::string_view unit) const {
    return practice::shown(
        value, unit, shown_in_,
        shown_in_ == job::ShownIn::mm ? practice::ShownHow::fine : practice::ShownHow::nearest);
  }
  std::string standing(job::Standing standing) const {
    return catalogue_.say("standing." + std::string(name_of(standing)), {}, shown_in_);
  }
};

void range(JsonText& out, const FaultRange& range) {
  out.key("range");
  out.open_object();
  if (!range.least.empty()) {
    put(out, "least", range.least);
    out.key("above");
    out.flag(range.above_least);
  }
  if (!range.most.empty()) {
    put(out, "most", range.most);
    out.key("below");
    out.flag(range.below_most);
  }
  out.close_object();
}

}  // namespace

std::string why_json(std::string_view kind, const std::vector<job::Figure>& figures,
                     const practice::Pack& pack, const practice::Catalogue& catalogue,
                     job::ShownIn shown_in) {
  const Writer writer(pack, catalogue, shown_in);
  JsonText out;
  out.open_object();
  put(out, "format", "lapwright-why/1");
  out.key("figures");
  out.open_list();
  for (const job::Figure& figure : figures) writer.figure(out, kind, figure);
  out.close_list();
  out.close_object();
  return out.take();
}

std::string rules_json(const practice::Pack& pack, const practice::Catalogue& catalogue,
                       job::ShownIn shown_in) {
  const Writer writer(pack, catalogue, shown_in);
  JsonText out;
  out.open_object();
  put(out, "format", "lapwright-rules/1");
  put(out, "pack", pack.name());
  out.key("rules");
  out.open_list();
  for (const practice::Rule& rule : pack.rules()) writer.rule(out, rule);
  out.close_list();
  out.close_object();
  return out.take();
}

std::string faults_json(const Faults& faults) {
  JsonText out;
  out.open_object();
  put(out, "format", "lapwright-faults/1");
  out.key("faults");
  out.open_list();
  for (const Fault& fault : faults) {
    out.open_object();
    put(out, "code", name_of(fault.code));
    put(out, "path", fault.path);
    put(out, "read", fault.read);
    put(out, "accepted", fault.accepted);
    put(out, "mend", fault.mend);
    if (fault.range.known()) range(out, fault.range);
    out.close_object();
  }
  out.close_list();
  out.close_object();
  return out.take();
}

std::string texts_json(const practice::Catalogue& catalogue) {
  JsonText out;
  out.open_object();
  put(out, "format", "lapwright-texts/1");
  put(out, "language", catalogue.language());
  out.key("texts");
  out.open_object();
  for (const std::string& key : catalogue.keys()) {
    if (!catalogue.params_of(key).empty()) continue;
    put(out, key, catalogue.say(key, {}, job::ShownIn::mm));
  }
  out.close_object();
  out.close_object();
  return out.take();
}

}  // namespace lapwright::engine
