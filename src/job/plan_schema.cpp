// plan_fields.h as JSON Schema 2020-12. Keys may be added to the format, so objects stay open.
#include <lapwright/job/write_plan.h>

#include <fmt/core.h>

#include <lapwright/job/json_text.h>
#include "plan_fields.h"

namespace lapwright::job {

namespace {

constexpr std::string_view kNumber = R"({"type":"number"})";
constexpr std::string_view kInteger = R"({"type":"integer"})";
constexpr std::string_view kText = R"({"type":"string"})";

std::string list_of(std::string_view item) {
  return fmt::format(R"({{"type":"array","items":{}}})", item);
}

std::string fixed_list(const std::vector<std::string>& entries) {
  std::string joined;
  for (const std::string& entry : entries) {
    if (!joined.empty()) joined += ',';
    joined += entry;
  }
  return fmt::format(R"({{"type":"array","minItems":{0},"maxItems":{0},"prefixItems":[{1}]}})",
                     entries.size(), joined);
}

std::string one_of(Words words) {
  std::string joined;
  for (const Word word : words) {
    if (!joined.empty()) joined += ',';
    joined += json_quoted(word);
  }
  return fmt::format(R"({{"enum":[{}]}})", joined);
}

// Takes the calls of row(): one schema an entry.
class RowSchema {
 public:
  void mm(Length /*unused*/) { entries_.emplace_back(kNumber); }
  void count(std::int64_t /*unused*/) { entries_.emplace_back(kInteger); }
  void word(std::string_view /*unused*/, Words words) { entries_.push_back(one_of(words)); }

  template <class T>
  static std::string of() {
    RowSchema schema;
    row(schema, T{});
    return fixed_list(schema.entries_);
  }

 private:
  std::vector<std::string> entries_;
};

// Takes the calls of fields(): one property a call. Values are not looked at; what may be absent shows in the
// overload that takes an optional, or in `When`.
class ObjectSchema {
 public:
  template <class T>
  static std::string of(const T& sample, std::string_view head = {}) {
    ObjectSchema schema;
    fields(schema, sample);
    return fmt::format(R"({{{}"type":"object","properties":{{{}}},"required":[{}]}})", head,
                       schema.properties_, schema.required_);
  }

  void format(std::string_view key, std::string_view value) {
    add(key, "The format of this file.", fmt::format(R"({{"const":{}}})", json_quoted(value)), true);
  }
  void text(std::string_view key, std::string_view about, std::string_view /*unused*/,
            When when = When::always) {
    add(key, about, kText, when == When::always);
  }
  void word(std::string_view key, std::string_view about, std::string_view /*unused*/, Words words) {
    add(key, about, one_of(words), true);
  }
  void mm(std::string_view key, std::string_view about, Length /*unused*/) { add(key, about, kNumber, true); }
  void mm(std::string_view key, std::string_view about, std::optional<Length> /*unused*/) {
    add(key, about, kNumber, false);
  }
  void number(std::string_view key, std::string_view about, double /*unused*/) {
    add(key, about, kNumber, true);
  }
  void number(std::string_view key, std::string_view about, std::optional<double> /*unused*/) {
    add(key, about, kNumber, false);
  }
  void count(std::string_view key, std::string_view about, std::int64_t /*unused*/) {
    add(key, about, kInteger, true);
  }
  void count(std::string_view key, std::string_view about, std::optional<std::int64_t> /*unused*/) {
    add(key, about, kInteger, false);
  }
  void flag(std::string_view key, std::string_view about, bool /*unused*/, When when = When::always) {
    add(key, about, R"({"type":"boolean"})", when == When::always);
  }
  void point(std::string_view key, std::string_view about, geom::GridPoint /*unused*/) {
    add(key, about, RowSchema::of<geom::GridPoint>(), true);
  }
  void place(std::string_view key, std::string_view about, geom::Vec3 /*unused*/) { triple(key, about); }
  void direction(std::string_view key, std::string_view about, geom::Vec3 /*unused*/) { triple(key, about); }
  void lengths(std::string_view key, std::string_view about, const std::vector<Length>& /*unused*/) {
    add(key, about, list_of(kNumber), true);
  }
  void counts(std::string_view key, std::string_view about, const std::vector<std::int64_t>& /*unused*/) {
    add(key, about, list_of(kInteger), true);
  }
  void names(std::string_view key, std::string_view about, const std::vector<std::string>& /*unused*/) {
    add(key, about, list_of(kText), true);
  }
  template <class T>
  void object(std::string_view key, std::string_view about, const T& value, bool given) {
    // What a default row or plan lacks, a real one may lack; nails stand there or not.
    add(key, about, of(value), given && !std::is_same_v<T, Nail>);
  }
  template <class T>
  void rows(std::string_view key, std::string_view about, const std::vector<T>& /*unused*/, When when) {
    add(key, about, list_of(RowSchema::of<T>()), when == When::always);
  }
  void rings(std::string_view key, std::string_view about, const std::vector<geom::Ring>& /*unused*/) {
    add(key, about, list_of(list_of(RowSchema::of<geom::GridPoint>())), false);
  }
  template <class T>
  void list(std::string_view key, std::string_view about, const std::vector<T>& /*unused*/, When when) {
    add(key, about, list_of(of(T{})), when == When::always);
  }
  template <class T>
  void lines(std::string_view key, std::string_view about, const std::vector<T>& /*unused*/) {
    add(key, about, list_of(of(T{})), true);
  }
  void named(std::string_view key, std::string_view about, const std::vector<Figure>& /*unused*/) {
    add(key, about, fmt::format(R"({{"type":"object","additionalProperties":{}}})", of(Figure{})), false);
  }
  void params(std::string_view key, std::string_view about, const Params& /*unused*/) {
    add(key, fmt::format("{} A number, a number with its unit, or a word.", about),
        fmt::format(R"({{"type":"object","additionalProperties":{{"anyOf":[{},{},{}]}}}})", kNumber, kText,
                    fixed_list({std::string(kNumber), std::string(kText)})),
        false);
  }

 private:
  void triple(std::string_view key, std::string_view about) {
    const std::string number(kNumber);
    add(key, about, fixed_list({number, number, number}), true);
  }

  // `schema` is an object; the description is put in front of its members.
  void add(std::string_view key, std::string_view about, std::string_view schema, bool always) {
    if (!properties_.empty()) properties_ += ',';
    properties_ +=
        fmt::format("{}:{{\"description\":{},{}", json_quoted(key), json_quoted(about), schema.substr(1));
    if (!always) return;
    if (!required_.empty()) required_ += ',';
    required_ += json_quoted(key);
  }

  std::string properties_;
  std::string required_;
};

}  // namespace

std::string plan_schema() {
  const std::string head = fmt::format(
      R"("$schema":"https://json-schema.org/draft/2020-12/schema","title":"Plan, format {}",)"
      R"("description":"Lengths are mm. Keys may be added, never renamed or dropped without a new format number.",)",
      kPlanFormat);
  return json_indented(ObjectSchema::of(Plan{}, head));
}

}  // namespace lapwright::job
