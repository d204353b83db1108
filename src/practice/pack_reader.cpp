#include <lapwright/practice/pack.h>

#include "fields.h"
#include "possible.h"

#include <lapwright/base/numbers.h>
#include <lapwright/job/document.h>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace lapwright::practice {

using job::Document;

struct PackReader {
  Pack pack;
  Faults faults;

  void read(const Document& document);

 private:
  void read_rule(const Document& item, const std::string& path);
  void check_rule_value(std::optional<double> value, const Rule& rule, Fields& fields, std::string_view key);
  void check_names();
  void read_lead_codes(Fields& fields);
  void read_metals(Fields& fields);
  static Length read_thickness(Fields& fields);
  void read_widths(Fields& fields, std::string_view key, std::vector<Length>& into);
  void read_slate_sizes(Fields& fields);
  void read_table(const Document& item, const std::string& path);
  void read_row(const Document& item, const std::string& path, Pack::HeadlapTable& table);
  std::optional<std::pair<double, double>> read_pair(const Document& item, const std::string& path,
                                                     std::string_view accepted);
  void refuse(FaultCode code, const std::string& path, const Document& at, std::string read,
              std::string accepted) {
    faults.push_back({code, path, at.spot, std::move(read), std::move(accepted), ""});
  }
};

namespace {

constexpr std::string_view kFormat = "lapwright-practice/1";
constexpr std::array<job::Exposure, 4> kExposures{job::Exposure::sheltered, job::Exposure::moderate,
                                                  job::Exposure::severe, job::Exposure::very_severe};

// A sheet or slate has sizes within these, whatever the pack says; a zero or a slip is refused here and not
// met later as a division.
bool is_size(double mm) {
  return 0.1 <= mm && mm <= 10'000;
}

std::optional<job::Exposure> exposure_of(const Document& word) {
  if (word.kind != Document::Kind::text) return std::nullopt;
  for (const job::Exposure exposure : kExposures) {
    if (word.text == job::name_of(exposure)) return exposure;
  }
  return std::nullopt;
}

std::string size_name(double length, double width) {
  return fmt::format("{}×{}", trimmed(length, 1), trimmed(width, 1));
}

}  // namespace

void PackReader::read(const Document& document) {
  Fields fields(document, "$", faults);
  const std::string format = fields.text("format");
  if (!format.empty() && format != kFormat) {
    fields.fault(FaultCode::bad_format, "format", quoted(format), quoted(kFormat), "");
  }
  pack.name_ = fields.text("name");
  if (const Document* rules = fields.list("rules")) {
    for (std::size_t i = 0; i < rules->items.size(); ++i) read_rule(rules->items[i], item_path("$.rules", i));
    if (rules->items.empty()) fields.fault(FaultCode::out_of_range, "rules", "no rule", "at least one", "");
  }
  check_names();
  read_lead_codes(fields);
  read_metals(fields);
  read_widths(fields, "strip_widths", pack.strip_widths_);
  read_widths(fields, "strip_widths_in_some_yards", pack.rare_strip_widths_);
  pack.strip_widths_source_ = fields.text("strip_widths_source");
  pack.strip_widths_standing_ = fields.standing("strip_widths_standing");
  read_slate_sizes(fields);
  if (const Document* tables = fields.list("headlap_tables")) {
    for (std::size_t i = 0; i < tables->items.size(); ++i) {
      read_table(tables->items[i], item_path("$.headlap_tables", i));
    }
  }
  fields.refuse_others();
}

void PackReader::check_rule_value(std::optional<double> value, const Rule& rule, Fields& fields,
                                  std::string_view key) {
  if (!value || is_possible(*value, rule.unit, rule.may_be_zero)) return;
  fields.fault(FaultCode::out_of_range, key, fmt::format("{}", *value),
               said_possible(rule.unit, rule.may_be_zero), "");
}

void PackReader::read_rule(const Document& item, const std::string& path) {
  Fields fields(item, path, faults);
  Rule rule;
  rule.name = fields.text("name");
  const std::optional<double> value = fields.number("value");
  rule.value = value.value_or(0);
  rule.pack_value = rule.value;
  rule.source = fields.text("source");
  rule.standing = fields.standing("standing");
  rule.note = fields.text_if_any("note");
  rule.may_be_zero = fields.flag_if_any("may_be_zero");
  rule.least = fields.number_if_any("least");
  rule.most = fields.number_if_any("most");
  rule.bound_source = fields.text_if_any("bound_source");
  // The unit may be an empty text (a count, a ratio), but has to be said.
  const Document* unit = item.find("unit");
  rule.unit = fields.text_if_any("unit");
  if (!unit && item.kind == Document::Kind::object) {
    fields.fault(FaultCode::missing_key, "unit", "", "mm, deg, kg, kg/m2, m2/l, min, h or an empty text",
                 "give it");
  } else if (!possible_in(rule.unit)) {
    fields.fault(FaultCode::bad_choice, "unit", quoted(rule.unit),
                 "mm, deg, kg, kg/m2, m2/l, min, h or an empty text", "");
  } else if (value) {
    check_rule_value(value, rule, fields, "value");
    if ((rule.least && rule.value < *rule.least) || (rule.most && rule.value > *rule.most)) {
      fields.fault(FaultCode::contradiction, "value", trimmed(rule.value, 3),
                   "a value within the rule's own bounds", "");
    }
  }
  if ((rule.least || rule.most) && rule.bound_source.empty()) {
    fields.fault(FaultCode::missing_key, "bound_source", "", "who forbids going past the bound", "give it");
  }
  if (const Document* others = fields.list_if_any("alternatives")) {
    for (std::size_t i = 0; i < others->items.size(); ++i) {
      Fields other(others->items[i], item_path(fields.path_of("alternatives"), i), faults);
      Alternative alternative;
      const std::optional<double> other_value = other.number("value");
      alternative.value = other_value.value_or(0);
      alternative.source = other.text("source");
      alternative.standing = other.standing("standing");
      if (possible_in(rule.unit)) check_rule_value(other_value, rule, other, "value");
      other.refuse_others();
      rule.alternatives.push_back(std::move(alternative));
    }
  }
  fields.refuse_others();
  pack.rules_.push_back(std::move(rule));
}

void PackReader::check_names() {
  std::stable_sort(pack.rules_.begin(), pack.rules_.end(),
                   [](const Rule& a, const Rule& b) { return a.name < b.name; });
  for (std::size_t i = 1; i < pack.rules_.size(); ++i) {
    const std::string& name = pack.rules_[i].name;
    if (name.empty() || name != pack.rules_[i - 1].name) continue;
    faults.push_back({FaultCode::duplicate_key, "$.rules", {}, quoted(name), "each rule once", ""});
  }
}

void PackReader::read_lead_codes(Fields& fields) {
  const std::string source = fields.text("lead_codes_source");
  const job::Standing standing = fields.standing("lead_codes_standing");
  const Document* codes = fields.list("lead_codes");
  if (!codes) return;
  for (std::size_t i = 0; i < codes->items.size(); ++i) {
    Fields item(codes->items[i], item_path("$.lead_codes", i), faults);
    const std::optional<double> code = item.number("code");
    const std::optional<double> mass = item.number("kg_per_m2");
    LeadCode lead;
    lead.thickness = read_thickness(item);
    lead.kg_per_m2 = mass.value_or(0);
    lead.colour = item.text("colour");
    lead.source = source;
    lead.standing = standing;
    item.refuse_others();
    if (mass && !is_possible(*mass, "kg/m2", false)) {
      item.fault(FaultCode::out_of_range, "kg_per_m2", trimmed(*mass, 3), said_possible("kg/m2", false), "");
    }
    if (!code) continue;
    if (!(1 <= *code && *code <= 99) || std::floor(*code) < *code) {
      item.fault(FaultCode::out_of_range, "code", trimmed(*code, 3), "a whole number from 1 to 99", "");
      continue;
    }
    lead.code = static_cast<std::int64_t>(*code);
    if (pack.has_lead(lead.code)) {
      item.fault(FaultCode::duplicate_key, "code", trimmed(*code, 0), "each code once", "");
      continue;
    }
    pack.codes_.push_back(std::move(lead));
  }
}

Length PackReader::read_thickness(Fields& fields) {
  const std::optional<double> thickness = fields.number("thickness");
  if (thickness && !is_size(*thickness)) {
    fields.fault(FaultCode::out_of_range, "thickness", trimmed(*thickness, 3), "0.1 to 10000 mm", "");
  }
  return Length::mm(thickness.value_or(0));
}

void PackReader::read_metals(Fields& fields) {
  const Document* metals = fields.list("soaker_metals");
  if (!metals) return;
  for (std::size_t i = 0; i < metals->items.size(); ++i) {
    Fields item(metals->items[i], item_path("$.soaker_metals", i), faults);
    SoakerMetal metal;
    metal.metal = item.text("metal");
    metal.thickness = read_thickness(item);
    metal.density = item.number("density").value_or(0);
    metal.source = item.text("source");
    metal.standing = item.standing("standing");
    item.refuse_others();
    pack.metals_.push_back(std::move(metal));
  }
}

void PackReader::read_widths(Fields& fields, std::string_view key, std::vector<Length>& into) {
  const Document* widths = fields.list(key);
  if (!widths) return;
  for (std::size_t i = 0; i < widths->items.size(); ++i) {
    const Document& item = widths->items[i];
    const std::string path = item_path(fields.path_of(key), i);
    if (item.kind != Document::Kind::number || !is_size(item.number)) {
      refuse(FaultCode::out_of_range, path, item, std::string(name_of(item.kind)) + " " + quoted(item.text),
             "a width in mm, 0.1 to 10000");
      continue;
    }
    const Length width = Length::mm(item.number);
    if (!into.empty() && width <= into.back()) {
      refuse(FaultCode::contradiction, path, item, trimmed(item.number, 3),
             "widths that grow along the list");
      continue;
    }
    into.push_back(width);
  }
}

std::optional<std::pair<double, double>> PackReader::read_pair(const Document& item, const std::string& path,
                                                               std::string_view accepted) {
  const bool is_pair = item.kind == Document::Kind::list && item.items.size() == 2 &&
                       item.items[0].kind == Document::Kind::number &&
                       item.items[1].kind == Document::Kind::number;
  if (!is_pair) {
    refuse(FaultCode::wrong_type, path, item, std::string(name_of(item.kind)), std::string(accepted));
    return std::nullopt;
  }
  return std::pair{item.items[0].number, item.items[1].number};
}

void PackReader::read_slate_sizes(Fields& fields) {
  const Document* sizes = fields.list("slate_sizes");
  if (!sizes) return;
  for (std::size_t i = 0; i < sizes->items.size(); ++i) {
    const Document& item = sizes->items[i];
    const std::string path = item_path("$.slate_sizes", i);
    const auto size = read_pair(item, path, "length and width in mm");
    if (!size) continue;
    if (!is_size(size->first) || !is_size(size->second)) {
      refuse(FaultCode::out_of_range, path, item, size_name(size->first, size->second), "0.1 to 10000 each");
      continue;
    }
    pack.slate_sizes_.emplace_back(Length::mm(size->first), Length::mm(size->second));
  }
}

void PackReader::read_table(const Document& item, const std::string& path) {
  Fields fields(item, path, faults);
  Pack::HeadlapTable table;
  table.table = fields.text("table");
  table.source = fields.text("source");
  table.standing = fields.standing("standing");
  table.variant = fields.flag_if_any("variant");
  table.shown_only = fields.flag_if_any("shown_only");
  table.ends = fields.number_if_any("ends");
  if (const Document* exposures = fields.list("exposures")) {
    for (std::size_t i = 0; i < exposures->items.size(); ++i) {
      const Document& word = exposures->items[i];
      const std::optional<job::Exposure> exposure = exposure_of(word);
      if (!exposure) {
        refuse(FaultCode::bad_choice, item_path(fields.path_of("exposures"), i), word, quoted(word.text),
               "sheltered, moderate, severe, very-severe");
        continue;
      }
      table.exposures.push_back(*exposure);
    }
  }
  if (const Document* rows = fields.list("rows")) {
    for (std::size_t i = 0; i < rows->items.size(); ++i) {
      read_row(rows->items[i], item_path(fields.path_of("rows"), i), table);
    }
  }
  fields.refuse_others();
  pack.headlap_tables_.push_back(std::move(table));
}

void PackReader::read_row(const Document& item, const std::string& path, Pack::HeadlapTable& table) {
  Fields fields(item, path, faults);
  Pack::HeadlapRow row;
  const Document* size = item.find("size");
  if (size && size->kind == Document::Kind::text && size->text == "smaller") {
    row.name = fields.text("size");
  } else if (const Document* pair = fields.list("size")) {
    if (const auto read =
            read_pair(*pair, fields.path_of("size"), "length and width in mm, or \"smaller\"")) {
      if (!is_size(read->first) || !is_size(read->second)) {
        fields.fault(FaultCode::out_of_range, "size", size_name(read->first, read->second),
                     "0.1 to 10000 each", "");
      }
      row.name = size_name(read->first, read->second);
      row.size = std::pair{Length::mm(read->first), Length::mm(read->second)};
    }
  }
  if (const Document* cells = fields.list("headlaps")) {
    for (std::size_t i = 0; i < cells->items.size(); ++i) {
      const Document& cell = cells->items[i];
      const std::string cell_path = item_path(fields.path_of("headlaps"), i);
      const auto read = read_pair(cell, cell_path, "pitch in degrees and headlap in mm");
      if (!read) continue;
      const auto [pitch, headlap] = *read;
      if (!(0 < pitch && pitch <= 90) || !(1 <= headlap && headlap <= 1000)) {
        refuse(FaultCode::out_of_range, cell_path, cell, fmt::format("{}, {}", pitch, headlap),
               "a pitch up to 90 degrees and a headlap from 1 to 1000 mm");
        continue;
      }
      if (!row.headlaps.empty() && pitch <= row.headlaps.back().first) {
        refuse(FaultCode::contradiction, cell_path, cell, trimmed(pitch, 3),
               "pitches that grow along the row");
        continue;
      }
      row.headlaps.emplace_back(pitch, Length::mm(headlap));
    }
    if (cells->items.empty())
      fields.fault(FaultCode::out_of_range, "headlaps", "nothing", "at least one", "");
  }
  fields.refuse_others();
  table.rows.push_back(std::move(row));
}

Result<Pack> Pack::read(std::string_view bytes) {
  const Result<Document> document = job::read_document(bytes);
  if (!document) return failed(document.error());
  PackReader reader;
  reader.read(*document);
  if (!reader.faults.empty()) return failed(std::move(reader.faults));
  return std::move(reader.pack);
}

}  // namespace lapwright::practice
