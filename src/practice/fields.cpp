#include "fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace lapwright::practice {

using job::Document;

namespace {

constexpr job::Standing kPrintedStandings[] = {job::Standing::standard, job::Standing::guide,
                                               job::Standing::book,     job::Standing::geometry,
                                               job::Standing::practice, job::Standing::memory};

std::string what_was_read(const Document& value) {
  if (value.kind == Document::Kind::text) return quoted(value.text);
  if (value.kind == Document::Kind::number) return value.text;
  if (value.kind == Document::Kind::boolean) return value.boolean ? "true" : "false";
  return std::string(name_of(value.kind));
}

}  // namespace

std::string item_path(std::string_view list_path, std::size_t index) {
  return fmt::format("{}[{}]", list_path, index);
}

std::string_view name_of(Document::Kind kind) {
  switch (kind) {
    case Document::Kind::null:
      return "null";
    case Document::Kind::boolean:
      return "true or false";
    case Document::Kind::number:
      return "a number";
    case Document::Kind::text:
      return "a text";
    case Document::Kind::list:
      return "a list";
    case Document::Kind::object:
      return "an object";
  }
  return "";
}

Fields::Fields(const Document& object, std::string path, Faults& faults)
    : object_(object), path_(std::move(path)), faults_(faults) {
  if (object_.kind != Document::Kind::object) {
    faults_.push_back({FaultCode::wrong_type, path_, object_.spot, what_was_read(object_), "an object", ""});
  }
}

std::string Fields::path_of(std::string_view key) const {
  return fmt::format("{}.{}", path_, key);
}

void Fields::fault(FaultCode code, std::string_view key, std::string read, std::string accepted,
                   std::string mend) {
  const Document* value = object_.find(key);
  faults_.push_back({code, path_of(key), value ? value->spot : object_.spot, std::move(read),
                     std::move(accepted), std::move(mend)});
}

const Document* Fields::take(std::string_view key, Document::Kind kind, bool needed) {
  known_.push_back(key);
  if (object_.kind != Document::Kind::object) return nullptr;  // already said
  const Document* value = object_.find(key);
  if (!value) {
    if (needed) fault(FaultCode::missing_key, key, "", std::string(name_of(kind)), "give it");
    return nullptr;
  }
  if (value->kind != kind) {
    fault(FaultCode::wrong_type, key, what_was_read(*value), std::string(name_of(kind)), "");
    return nullptr;
  }
  return value;
}

std::string Fields::text(std::string_view key) {
  const Document* value = take(key, Document::Kind::text, true);
  if (value && value->text.empty())
    fault(FaultCode::out_of_range, key, "\"\"", "a text that is not empty", "");
  return value ? value->text : std::string();
}

std::string Fields::text_if_any(std::string_view key) {
  const Document* value = take(key, Document::Kind::text, false);
  return value ? value->text : std::string();
}

std::optional<double> Fields::number(std::string_view key) {
  const Document* value = take(key, Document::Kind::number, true);
  if (!value) return std::nullopt;
  return value->number;
}

std::optional<double> Fields::number_if_any(std::string_view key) {
  const Document* value = take(key, Document::Kind::number, false);
  if (!value) return std::nullopt;
  return value->number;
}

bool Fields::flag_if_any(std::string_view key) {
  const Document* value = take(key, Document::Kind::boolean, false);
  return value && value->boolean;
}

const Document* Fields::list(std::string_view key) {
  return take(key, Document::Kind::list, true);
}
const Document* Fields::list_if_any(std::string_view key) {
  return take(key, Document::Kind::list, false);
}
const Document* Fields::object(std::string_view key) {
  return take(key, Document::Kind::object, true);
}

job::Standing Fields::standing(std::string_view key) {
  const Document* value = take(key, Document::Kind::text, true);
  if (!value) return job::Standing::practice;
  std::string words;
  for (const job::Standing standing : kPrintedStandings) {
    if (value->text == job::name_of(standing)) return standing;
    if (!words.empty()) words += ", ";
    words += job::name_of(standing);
  }
  fault(FaultCode::bad_choice, key, quoted(value->text), words, "");
  return job::Standing::practice;
}

void Fields::refuse_others() {
  for (const Document::Member& member : object_.members) {
    if (std::find(known_.begin(), known_.end(), member.key) != known_.end()) continue;
    std::string accepted;
    for (const std::string_view key : known_) {
      if (!accepted.empty()) accepted += ", ";
      accepted += key;
    }
    faults_.push_back(
        {FaultCode::unknown_key, path_of(member.key), member.spot, quoted(member.key), accepted, ""});
  }
}

}  // namespace lapwright::practice
