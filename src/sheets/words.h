// What a sheet says: the catalogue's words, and lengths as this job shows them.
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/practice/catalogue.h>
#include <lapwright/sheets/sheets.h>

#include <string>
#include <string_view>

namespace lapwright::sheets {

using practice::ShownHow;

class Words {
 public:
  explicit Words(const Sources& sources)
      : catalogue_(sources.catalogue), shown_in_(sources.survey.shown_in) {}

  std::string say(std::string_view key, const job::Params& params = {}) const {
    return catalogue_.say(key, params, shown_in_);
  }
  // What kind of piece it is; its plain name where the catalogue has no better.
  std::string kind(const std::string& name) const {
    return has("sheet.kind." + name) ? say("sheet.kind." + name) : name;
  }
  // A practice rule as a person calls it, with the name that a job file knows it by.
  std::string rule(const std::string& name) const {
    return has("label." + name) ? say("label." + name) + " (" + name + ")" : name;
  }
  const practice::Catalogue& catalogue() const { return catalogue_; }
  bool has(std::string_view key) const { return catalogue_.has(key); }

  // With its unit: "190 mm", "7 1/2 in".
  std::string length(Length length, ShownHow how = ShownHow::nearest) const;
  // On a drawing: "190"; in inches with the unit, for feet and inches need it.
  std::string tape(Length length, ShownHow how = ShownHow::nearest) const;
  std::string value(double value, std::string_view unit, ShownHow how = ShownHow::nearest) const;

 private:
  const practice::Catalogue& catalogue_;
  job::ShownIn shown_in_;
};

// Fit for a file name: small letters, digits and single hyphens of `text`; "x" when nothing is left.
std::string file_stem(std::string_view text);

}  // namespace lapwright::sheets
