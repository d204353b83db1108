#include <lapwright/practice/figure.h>

#include <utility>

namespace lapwright::practice {

Why::Why(std::string_view name, std::string_view formula, std::string_view unit) {
  figure_.name = name;
  figure_.formula = formula;
  figure_.unit = unit;
  figure_.source = "geometry";
  figure_.standing = job::Standing::geometry;
}

Why& Why::term(std::string_view symbol, double value, std::string_view unit, std::string_view from) {
  figure_.terms.push_back({std::string(symbol), value, std::string(unit), std::string(from)});
  return *this;
}

Why& Why::survey(std::string_view symbol, Length value) {
  return term(symbol, value.in_mm(), "mm", "survey");
}
Why& Why::survey(std::string_view symbol, Angle value) {
  return term(symbol, value.in_degrees(), "deg", "survey");
}
Why& Why::set_out(std::string_view symbol, Length value) {
  return term(symbol, value.in_mm(), "mm", "set-out");
}

Why& Why::rule(std::string_view symbol, const Rule& rule) {
  term(symbol, rule.value, rule.unit, "rule " + rule.name);
  if (!decided_) decided_by(rule);
  return *this;
}

Why& Why::decided_by(const Rule& rule) {
  figure_.rule = rule.name;
  figure_.source = rule.source;  // an overridden rule says itself that the job set it
  figure_.standing = rule.standing;
  decided_ = true;
  return *this;
}

job::Figure Why::gives(Length value) {
  return gives(value.in_mm());
}
job::Figure Why::gives(double value) {
  figure_.value = value;
  return std::move(figure_);
}

}  // namespace lapwright::practice
