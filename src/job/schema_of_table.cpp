#include "schema_of_table.h"

#include <lapwright/base/numbers.h>
#include <lapwright/job/read_survey.h>
#include <lapwright/job/yard.h>

#include <fmt/core.h>

#include <lapwright/job/json_text.h>
#include "survey_fields.h"
#include "table_reader.h"
#include "yard_fields.h"

namespace lapwright::job {

namespace {

// A text that may be a length; the reader knows the rest.
constexpr std::string_view kLengthPattern = "^\\s*[0-9\u00BD\u00BC\u00BE\u215B\u215C\u215D\u215E][^-]*$";
constexpr std::string_view kOneLine = "^[^\\u0000-\\u001f\\u007f]*$";
constexpr int kDecimals = 3;

class SchemaOfTable {
 public:
  std::string run(std::string_view title, const Table& root, std::span<const Table* const> tables) {
    json_.open_object();
    member("$schema", "https://json-schema.org/draft/2020-12/schema");
    member("title", title);
    member(
        "description",
        "Lengths are numbers in the file's `unit`, or texts that name one. Bounds are stated in mm in each "
        "description; what only reading can know (a text's length, values that contradict each other) is not "
        "judged here.");
    table_body(root);
    json_.key("$defs");
    json_.open_object();
    for (const Table* table : tables) {
      if (table == &root) continue;
      json_.key(table->name);
      json_.open_object();
      table_body(*table);
      json_.close_object();
    }
    json_.close_object();
    json_.close_object();
    return json_indented(json_.take());
  }

 private:
  void member(std::string_view key, std::string_view text) {
    json_.key(key);
    json_.text(text);
  }
  void number(std::string_view key, double value) {
    json_.key(key);
    json_.number(value, kDecimals);
  }
  void count(std::string_view key, std::size_t value) {
    json_.key(key);
    json_.count(static_cast<std::int64_t>(value));
  }
  void type(std::string_view name) { member("type", name); }

  void table_body(const Table& table) {
    type("object");
    json_.key("additionalProperties");
    json_.flag(false);
    json_.key("properties");
    json_.open_object();
    for (const Field& field : table.fields) {
      json_.key(field.key);
      json_.open_object();
      describe(field);
      value_of(field);
      json_.close_object();
    }
    json_.close_object();
    required(table, [](const Field& field) { return field.needed == kAllKinds; });
    if (!table.kinds.empty()) kinds_of(table);
  }

  template <class Wanted>
  void required(const Table& table, Wanted wanted) {
    bool any = false;
    for (const Field& field : table.fields) any = any || wanted(field);
    if (!any) return;
    json_.key("required");
    json_.open_list();
    for (const Field& field : table.fields) {
      if (wanted(field)) json_.text(field.key);
    }
    json_.close_list();
  }

  // What each kind needs and refuses beyond the rest.
  void kinds_of(const Table& table) {
    json_.key("allOf");
    json_.open_list();
    for (std::size_t i = 0; i < table.kinds.size(); ++i) {
      const Kinds bit = Kinds{1} << i;
      json_.open_object();
      json_.key("if");
      json_.open_object();
      json_.key("properties");
      json_.open_object();
      json_.key("kind");
      json_.open_object();
      member("const", table.kinds[i]);
      json_.close_object();
      json_.close_object();
      json_.key("required");
      json_.open_list();
      json_.text("kind");
      json_.close_list();
      json_.close_object();
      json_.key("then");
      json_.open_object();
      json_.key("properties");
      json_.open_object();
      for (const Field& field : table.fields) {
        if ((field.allowed & bit) != 0) continue;
        json_.key(field.key);
        json_.flag(false);
      }
      json_.close_object();
      required(table,
               [bit](const Field& field) { return field.needed != kAllKinds && (field.needed & bit) != 0; });
      json_.close_object();
      json_.close_object();
    }
    json_.close_list();
  }

  void describe(const Field& field) {
    std::string about(field.about);
    switch (field.shape) {
      case Shape::length:
      case Shape::measured_length:
      case Shape::measured_lengths:
      case Shape::gaps:
      case Shape::points:
        about += fmt::format(" Accepted: {}.", accepted_range(field, LengthUnit::mm));
        break;
      default:
        break;
    }
    member("description", about);
  }

  void value_of(const Field& field) {
    switch (field.shape) {
      case Shape::format:
        member("const", field.words.front());
        break;
      case Shape::text:
        text_of(field);
        break;
      case Shape::choice:
        json_.key("enum");
        json_.open_list();
        for (const Word word : field.words) json_.text(word);
        json_.close_list();
        break;
      case Shape::length:
        length(field.range);
        break;
      case Shape::measured_length:
        measured(field.range, true);
        break;
      case Shape::angle:
      case Shape::percent:
        angle(field.range);
        break;
      case Shape::measured_angle:
        measured(field.range, false);
        break;
      case Shape::count:
        type("integer");
        bounds(field.range);
        break;
      case Shape::object:
        reference(*field.of);
        break;
      case Shape::objects:
        list_of(field, [&] { reference(*field.of); });
        break;
      case Shape::measured_lengths:
        list_of(field, [&] { measured(field.range, true); });
        break;
      case Shape::points:
        list_of(field, [&] { pair([&] { length(field.range); }, [&] { length(field.range); }); });
        break;
      case Shape::names:
        list_of(field, [&] { text_of(field); });
        break;
      case Shape::gaps:
        json_.key("anyOf");
        json_.open_list();
        json_.open_object();
        measured(field.range, true);
        json_.close_object();
        json_.open_object();
        list_of(field, [&] { reference(*field.of); });
        json_.close_object();
        json_.close_list();
        break;
      case Shape::overrides:
        type("object");
        count("maxProperties", field.most_items);
        json_.key("additionalProperties");
        json_.open_object();
        length(field.range);
        json_.close_object();
        break;
    }
  }

  void text_of(const Field& field) {
    type("string");
    number("minLength", field.range.low);
    number("maxLength", field.range.high);
    member("pattern", kOneLine);
  }

  // Of a number in the file's unit the upper bound in mm holds in inches too, only loosely; a lower bound
  // that is not 0 would not, so only the sign is judged.
  void length(const Range& range) {
    json_.key("anyOf");
    json_.open_list();
    json_.open_object();
    type("number");
    number(range.above_low || range.low > 0 ? "exclusiveMinimum" : "minimum", 0);
    number("maximum", range.high);
    json_.close_object();
    json_.open_object();
    type("string");
    member("pattern", kLengthPattern);
    count("maxLength", 64);
    json_.close_object();
    json_.close_list();
  }

  void angle(const Range& range) {
    type("number");
    bounds(range);
  }

  void bounds(const Range& range) {
    number(range.above_low ? "exclusiveMinimum" : "minimum", range.low);
    number(range.below_high ? "exclusiveMaximum" : "maximum", range.high);
  }

  void measured(const Range& range, bool is_length) {
    const auto one = [&] { is_length ? length(range) : angle(range); };
    const auto spread = [&] { is_length ? length({0, range.high}) : angle({0, range.high}); };
    json_.key("anyOf");
    json_.open_list();
    json_.open_object();
    one();
    json_.close_object();
    json_.open_object();
    pair(one, spread);
    json_.close_object();
    json_.close_list();
  }

  template <class First, class Second>
  void pair(First first, Second second) {
    type("array");
    count("minItems", 2);
    count("maxItems", 2);
    json_.key("prefixItems");
    json_.open_list();
    json_.open_object();
    first();
    json_.close_object();
    json_.open_object();
    second();
    json_.close_object();
    json_.close_list();
  }

  template <class Item>
  void list_of(const Field& field, Item item) {
    type("array");
    count("minItems", field.least_items);
    count("maxItems", field.most_items);
    json_.key("items");
    json_.open_object();
    item();
    json_.close_object();
  }

  void reference(const Table& table) { member("$ref", fmt::format("#/$defs/{}", table.name)); }

  JsonText json_;
};

}  // namespace

std::string schema_of_table(std::string_view title, const Table& root, std::span<const Table* const> tables) {
  return SchemaOfTable().run(title, root, tables);
}

std::string survey_schema() {
  return schema_of_table(fmt::format("Job file, format {}", kJobFormat), survey_table(), survey_tables());
}

std::string yard_schema() {
  return schema_of_table(fmt::format("Yard file, format {}", kYardFormat), yard_table(), yard_tables());
}

}  // namespace lapwright::job
