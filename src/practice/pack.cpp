#include <lapwright/practice/pack.h>

#include <lapwright/base/nearest.h>

#include "embedded.h"
#include "possible.h"

#include <lapwright/base/numbers.h>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

namespace lapwright::practice {

namespace {

constexpr int kShownDecimals = 6;

// The job's value is the pack's own, or one that the pack names, or the job's alone.
void give(Rule& rule, double value) {
  rule.overridden = true;
  rule.value = value;
  const auto same = [value](double named) {
    return trimmed(named, kShownDecimals) == trimmed(value, kShownDecimals);
  };
  if (same(rule.pack_value)) return;
  for (const Alternative& alternative : rule.alternatives) {
    if (!same(alternative.value)) continue;
    rule.source = alternative.source;
    rule.standing = alternative.standing;
    return;
  }
  rule.source = "set by the job";
  rule.standing = job::Standing::measured;
}

std::string unit_in_words(std::string_view unit) {
  if (unit == "mm") return "a length";
  if (unit == "deg") return "a number of degrees";
  if (unit.empty()) return "a bare number";
  return fmt::format("a number of {}", unit);
}

}  // namespace

Result<Pack> Pack::built_in() {
  return read(embedded::uk_common_json());
}

const Rule* Pack::find(std::string_view name) const {
  const auto at =
      std::lower_bound(rules_.begin(), rules_.end(), name,
                       [](const Rule& rule, std::string_view wanted) { return rule.name < wanted; });
  return at != rules_.end() && at->name == name ? &*at : nullptr;
}

const Rule& Pack::rule(std::string_view name) const {
  const Rule* found = find(name);
  assert(found);
  asked_.resize(rules_.size());
  asked_[static_cast<std::size_t>(found - rules_.data())] = true;
  return *found;
}

std::vector<const Rule*> Pack::asked() const {
  std::vector<const Rule*> out;
  for (std::size_t i = 0; i < asked_.size(); ++i) {
    if (asked_[i]) out.push_back(&rules_[i]);
  }
  return out;
}

const LeadCode& Pack::lead(std::int64_t code) const {
  assert(has_lead(code));
  return *std::find_if(codes_.begin(), codes_.end(),
                       [code](const LeadCode& lead) { return lead.code == code; });
}

bool Pack::has_lead(std::int64_t code) const {
  return std::any_of(codes_.begin(), codes_.end(),
                     [code](const LeadCode& lead) { return lead.code == code; });
}

const SoakerMetal* Pack::soaker_metal(std::string_view metal) const {
  const auto at = std::find_if(metals_.begin(), metals_.end(),
                               [metal](const SoakerMetal& m) { return m.metal == metal; });
  return at == metals_.end() ? nullptr : &*at;
}

std::optional<Length> Pack::next_strip_width(Length at_least) const {
  // A strip is sold in whole millimetres: a need that is over by floating-point noise alone is not over.
  constexpr Length kNoise = Length::mm(1e-6);
  for (const Length width : strip_widths_) {
    if (width >= at_least - kNoise) return width;
  }
  return std::nullopt;
}

Result<Pack> Pack::with_overrides(const std::vector<job::Override>& overrides, bool bare_is_inches) const {
  Pack pack = *this;
  Faults faults;
  std::vector<std::string_view> names;
  for (const Rule& rule : rules_) names.push_back(rule.name);

  for (const job::Override& wish : overrides) {
    const std::string path = fmt::format("$.practice[{}]", quoted(wish.rule));
    const auto refuse = [&](FaultCode code, std::string read, std::string accepted, std::string mend) {
      faults.push_back({code, path, wish.spot, std::move(read), std::move(accepted), std::move(mend)});
    };
    const auto at = std::find_if(pack.rules_.begin(), pack.rules_.end(),
                                 [&wish](const Rule& rule) { return rule.name == wish.rule; });
    if (at == pack.rules_.end()) {
      const auto near = nearest(wish.rule, names);
      refuse(FaultCode::unknown_rule, quoted(wish.rule),
             fmt::format("the name of a rule of the pack {}", name_),
             near ? fmt::format("did you mean {}?", *near) : std::string("`lapwright rules` lists them"));
      continue;
    }
    if (at->overridden) {
      refuse(FaultCode::duplicate_key, quoted(wish.rule), "each rule once", "leave one of them out");
      continue;
    }
    const bool is_length = at->unit == "mm";
    if (wish.is_length_text && !is_length) {
      refuse(FaultCode::wrong_type, fmt::format("{} mm", trimmed(wish.number, kShownDecimals)),
             unit_in_words(at->unit), "leave the unit out");
      continue;
    }
    const bool in_inches = is_length && wish.is_bare && bare_is_inches;
    const double value = in_inches ? Length::inches(wish.number).in_mm() : wish.number;
    if (!is_possible(value, at->unit, at->may_be_zero)) {
      refuse(FaultCode::out_of_range, fmt::format("{}{}", value, is_length ? " mm" : ""),
             said_possible(at->unit, at->may_be_zero),
             fmt::format("the pack says {}{}{}", trimmed(at->pack_value, kShownDecimals),
                         at->unit.empty() ? "" : " ", at->unit));
      continue;
    }
    give(*at, value);
  }
  if (!faults.empty()) return failed(std::move(faults));
  return pack;
}

}  // namespace lapwright::practice
