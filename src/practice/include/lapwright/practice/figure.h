// Builds a figure that can answer why: formula, terms, rule, source, standing, in the order a person reads
// them.
//
//   Why("length", "L - G + a", "mm")
//       .survey("L", unit_length).set_out("G", gauge).rule("a", pack.rule("soaker.head_allowance"))
//       .gives(blank_length);
//
// The first rule named decides the figure's source and standing, unless another is named with decided_by(); a
// figure without a rule is geometry. gives() takes the value that the caller computed: the formula is for
// people and for the test that recomputes it, never for the engine.
#pragma once

#include <lapwright/job/plan.h>
#include <lapwright/practice/pack.h>

#include <string>
#include <string_view>

namespace lapwright::practice {

class Why {
 public:
  Why(std::string_view name, std::string_view formula, std::string_view unit);

  Why& survey(std::string_view symbol, Length value);
  Why& survey(std::string_view symbol, Angle value);
  Why& set_out(std::string_view symbol, Length value);
  Why& term(std::string_view symbol, double value, std::string_view unit, std::string_view from);
  Why& rule(std::string_view symbol, const Rule& rule);
  Why& decided_by(const Rule& rule);

  job::Figure gives(Length value);
  job::Figure gives(double value);

 private:
  job::Figure figure_;
  bool decided_ = false;
};

}  // namespace lapwright::practice
