// What the product says, in words: one file per language, data/texts/<language>.json, embedded at build.
//
// A text is asked for by key and given params: "{name}" in the template is replaced by the param of that
// name, lengths (unit "mm") shown in the job's unit. "{name:up}" and "{name:down}" round that way when shown,
// nearest otherwise;
// "{name:fine}" shows a length in mm to two decimals whatever the job's unit, for thicknesses and grooves.
// Templates are checked when they are read; a brace has no other use. A key or param that is missing is our
// own mistake: tests walk every key that the engine can say.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::practice {

class Catalogue {
 public:
  static Result<Catalogue> built_in();  // English
  static Result<Catalogue> read(std::string_view bytes);

  const std::string& language() const { return language_; }  // "en"

  // The text for `key`. A missing key gives the key itself in «guillemets», a missing param its name, so that
  // it is seen and never crashes.
  std::string say(std::string_view key, const job::Params& params, job::ShownIn shown_in) const;
  bool has(std::string_view key) const { return text_of(key) != nullptr; }
  const std::vector<std::string>& keys() const { return keys_; }  // sorted
  // Names of the params that the text of `key` needs, sorted, each once; empty for an unknown key.
  std::vector<std::string> params_of(std::string_view key) const;

 private:
  const std::string* text_of(std::string_view key) const;

  std::string language_;
  std::vector<std::string> keys_;
  std::vector<std::string> texts_;
  friend struct CatalogueReader;
};

enum class ShownHow : std::uint8_t { nearest, up, down, fine };

// A value in its unit as a person reads it: "190 mm", "7 1/2 in", "35°", "2.4 kg", "20.41 kg/m²", "0.034 m²".
// REQUIRES a finite value.
std::string shown(double value, std::string_view unit, job::ShownIn shown_in,
                  ShownHow how = ShownHow::nearest);

}  // namespace lapwright::practice
