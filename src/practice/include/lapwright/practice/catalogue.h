// What the product says, in words: one file per language, data/texts/<language>.json, embedded at build.
//
// A text is asked for by key and given params: "{name}" in the template is replaced by the param of that name, lengths
// (unit "mm") shown in the job's unit. A key or param that is missing is our own mistake: tests walk every key that
// the engine can say. "{name:up}" and "{name:down}" round that way when shown; nearest otherwise.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>

#include <string>
#include <string_view>
#include <vector>

namespace lapwright::practice {

class Catalogue {
 public:
  static Result<Catalogue> built_in();  // English
  static Result<Catalogue> read(std::string_view bytes);

  // The text for `key`. A missing key gives the key itself in «guillemets», so that it is seen and never crashes.
  std::string say(std::string_view key, const job::Params& params, job::ShownIn shown_in) const;
  bool has(std::string_view key) const;
  const std::vector<std::string>& keys() const { return keys_; }  // sorted

 private:
  std::vector<std::string> keys_;
  std::vector<std::string> texts_;
};

// A value in its unit as a person reads it: "190 mm", "7 1/2 in", "35°", "2.4 kg".
std::string shown(double value, std::string_view unit, job::ShownIn shown_in);

}  // namespace lapwright::practice
