#include <lapwright/practice/catalogue.h>

#include "embedded.h"
#include "fields.h"
#include "template.h"

#include <lapwright/job/document.h>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace lapwright::practice {

using job::Document;

namespace {

constexpr std::string_view kFormat = "lapwright-texts/1";

std::string param_text(const TemplatePart& part, const job::Params& params, job::ShownIn shown_in) {
  const auto at = std::find_if(params.begin(), params.end(),
                               [&part](const job::Param& param) { return param.name == part.text; });
  if (at == params.end()) return fmt::format("«{}»", part.text);
  if (const auto* const word = std::get_if<std::string>(&at->value)) return *word;
  const double* const number = std::get_if<double>(&at->value);
  return number ? shown(*number, at->unit, shown_in, part.how) : std::string();
}

}  // namespace

struct CatalogueReader {
  Catalogue catalogue;
  Faults faults;

  void read(const Document& document) {
    Fields fields(document, "$", faults);
    const std::string format = fields.text("format");
    if (!format.empty() && format != kFormat) {
      fields.fault(FaultCode::bad_format, "format", quoted(format), quoted(kFormat), "");
    }
    catalogue.language_ = fields.text("language");
    if (const Document* texts = fields.object("texts")) read_texts(*texts);
    fields.refuse_others();
  }

  void read_texts(const Document& texts) {
    std::vector<std::pair<std::string, std::string>> pairs;
    for (const Document::Member& member : texts.members) {
      const std::string path = fmt::format("$.texts[{}]", quoted(member.key));
      if (member.value.kind != Document::Kind::text) {
        faults.push_back({FaultCode::wrong_type, path, member.value.spot,
                          std::string(name_of(member.value.kind)), "a text", ""});
        continue;
      }
      const std::optional<std::string> complaint = template_complaint(member.value.text);
      if (complaint) {
        faults.push_back({FaultCode::bad_choice, path, member.value.spot, quoted(member.value.text),
                          "{name}, {name:up}, {name:down} or {name:fine}; " + *complaint, ""});
        continue;
      }
      pairs.emplace_back(member.key, member.value.text);
    }
    std::sort(pairs.begin(), pairs.end());  // keys are unique: the document refuses duplicates
    for (auto& [key, text] : pairs) {
      catalogue.keys_.push_back(std::move(key));
      catalogue.texts_.push_back(std::move(text));
    }
  }
};

Result<Catalogue> Catalogue::built_in() {
  return read(embedded::english_texts_json());
}

Result<Catalogue> Catalogue::read(std::string_view bytes) {
  const Result<Document> document = job::read_document(bytes);
  if (!document) return failed(document.error());
  CatalogueReader reader;
  reader.read(*document);
  if (!reader.faults.empty()) return failed(std::move(reader.faults));
  return std::move(reader.catalogue);
}

const std::string* Catalogue::text_of(std::string_view key) const {
  const auto at = std::lower_bound(keys_.begin(), keys_.end(), key);
  if (at == keys_.end() || *at != key) return nullptr;
  return &texts_[static_cast<std::size_t>(at - keys_.begin())];
}

std::string Catalogue::say(std::string_view key, const job::Params& params, job::ShownIn shown_in) const {
  const std::string* text = text_of(key);
  if (!text) return fmt::format("«{}»", key);
  std::string said;
  for (const TemplatePart& part : template_parts(*text)) {
    said += part.is_param ? param_text(part, params, shown_in) : std::string(part.text);
  }
  return said;
}

std::vector<std::string> Catalogue::params_of(std::string_view key) const {
  std::vector<std::string> names;
  const std::string* text = text_of(key);
  if (!text) return names;
  for (const TemplatePart& part : template_parts(*text)) {
    if (part.is_param) names.emplace_back(part.text);
  }
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

}  // namespace lapwright::practice
