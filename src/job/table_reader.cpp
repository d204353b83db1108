#include "table_reader.h"

#include <lapwright/base/nearest.h>
#include <lapwright/base/numbers.h>
#include <lapwright/job/survey.h>

#include <fmt/core.h>

#include <cmath>

#include "length_number.h"

namespace lapwright::job {

namespace {

using Kind = Document::Kind;

struct At {
  Reading& reading;
  const Field& field;
  const Document& from;
  const Path& path;

  void fault(FaultCode code, std::string accepted, std::string mend) const {
    reading.fault(code, path, from.spot, shown(from), std::move(accepted), std::move(mend),
                  range_of(field, reading.unit()));
  }
  std::string accepted() const { return accepted_by(field, reading.unit()); }
};

std::string replace_by(const Field& field) {
  return field.example.empty() ? std::string("replace it")
                               : fmt::format("write for example {}", field.example);
}

bool inside(double value, const Range& range) {
  if (range.above_low ? value <= range.low : value < range.low) return false;
  return !(range.below_high ? value >= range.high : value > range.high);
}

// A number or text to mm, without its range; faults are placed at `from`.
std::optional<double> length_value(const At& at) {
  if (at.from.kind == Kind::number) return length_of_number(at.from.text, at.reading.unit()).in_mm();
  if (at.from.kind != Kind::text) {
    at.fault(FaultCode::wrong_type, at.accepted(), replace_by(at.field));
    return std::nullopt;
  }
  const Result<Length> length = read_length(at.from.text, at.reading.unit());
  if (!length) {
    Fault fault = length.error().front();
    fault.range = range_of(at.field, at.reading.unit());
    at.reading.place(std::move(fault), at.path, at.from.spot);
    return std::nullopt;
  }
  return length->in_mm();
}

std::optional<double> angle_value(const At& at) {
  if (at.from.kind == Kind::number) return at.from.number;
  at.fault(FaultCode::wrong_type, at.accepted(), replace_by(at.field));
  return std::nullopt;
}

bool is_length(const Field& field) {
  return field.shape != Shape::angle && field.shape != Shape::measured_angle;
}

std::optional<double> plain_value(const At& at) {
  return is_length(at.field) ? length_value(at) : angle_value(at);
}

std::optional<double> ranged_value(const At& at) {
  const std::optional<double> value = plain_value(at);
  if (!value || inside(*value, at.field.range)) return value;
  std::string mend = at.field.shape == Shape::percent ? "write it again" : "measure it again";
  if (is_length(at.field) && at.from.kind == Kind::number) {
    mend += at.reading.unit() == LengthUnit::mm ? "; bare numbers in this file are mm"
                                                : "; bare numbers in this file are inches";
  }
  at.fault(FaultCode::out_of_range, accepted_range(at.field, at.reading.unit()), std::move(mend));
  return std::nullopt;
}

// value, or [value, ±].
std::optional<Scalar> measured_value(const At& at) {
  Scalar out;
  if (at.from.kind != Kind::list) {
    const std::optional<double> value = ranged_value(at);
    if (!value) return std::nullopt;
    out.value = *value;
    return out;
  }
  if (at.from.items.size() != 2) {
    at.fault(FaultCode::wrong_type, at.accepted(), "write [value, ±], two values");
    return std::nullopt;
  }
  const Path first = at.path.item(0);
  const Path second = at.path.item(1);
  const std::optional<double> value = ranged_value({at.reading, at.field, at.from.items[0], first});
  const At at_spread{at.reading, at.field, at.from.items[1], second};
  const std::optional<double> spread = plain_value(at_spread);
  if (!value || !spread) return std::nullopt;
  if (*spread < 0 || (*spread >= *value && *spread > 0)) {
    // The ± is in the value's own unit, and so is its bound.
    const std::string most =
        is_length(at.field) ? shown_bound(*value, at.reading.unit()) : trimmed(*value, 3) + "°";
    at.reading.fault(FaultCode::out_of_range, second, at.from.items[1].spot, shown(at.from.items[1]),
                     "a ± of 0 or more, and less than the value itself",
                     "write the most that the measurement may be out", {"0", most, false, true});
    return std::nullopt;
  }
  out.value = *value;
  out.spread = *spread;
  return out;
}

std::optional<Scalar> text_value(const At& at) {
  if (at.from.kind != Kind::text) {
    at.fault(FaultCode::wrong_type, at.accepted(), replace_by(at.field));
    return std::nullopt;
  }
  std::size_t characters = 0;
  bool control = false;
  for (const char c : at.from.text) {
    const auto byte = static_cast<unsigned char>(c);
    characters += (byte & 0xC0U) != 0x80U ? 1U : 0U;
    control = control || byte < 0x20U || byte == 0x7FU;
  }
  if (control || !inside(static_cast<double>(characters), at.field.range)) {
    at.fault(FaultCode::out_of_range, at.accepted(),
             control ? "remove line breaks and control characters" : replace_by(at.field));
    return std::nullopt;
  }
  Scalar out;
  out.text = at.from.text;
  return out;
}

std::optional<Scalar> choice_value(const At& at) {
  if (at.from.kind != Kind::text) {
    at.fault(FaultCode::wrong_type, at.accepted(), replace_by(at.field));
    return std::nullopt;
  }
  for (std::size_t i = 0; i < at.field.words.size(); ++i) {
    if (at.field.words[i] != at.from.text) continue;
    Scalar out;
    out.word = i;
    return out;
  }
  const std::optional<Word> near = nearest(at.from.text, at.field.words);
  at.fault(FaultCode::bad_choice, at.accepted(),
           near ? fmt::format("did you mean \"{}\"?", *near) : "use one of these words");
  return std::nullopt;
}

std::optional<Scalar> count_value(const At& at) {
  if (at.from.kind != Kind::number) {
    at.fault(FaultCode::wrong_type, at.accepted(), replace_by(at.field));
    return std::nullopt;
  }
  if (at.from.number != std::floor(at.from.number) || !inside(at.from.number, at.field.range)) {
    at.fault(FaultCode::out_of_range, at.accepted(), replace_by(at.field));
    return std::nullopt;
  }
  Scalar out;
  out.value = at.from.number;
  return out;
}

void read_format(const At& at) {
  if (at.from.kind == Kind::text && at.from.text == at.field.words.front()) return;
  at.fault(FaultCode::bad_format, at.accepted(),
           fmt::format("write \"format\": \"{}\"", at.field.words.front()));
}

// A list with as many items as the field allows; its items are read by the caller.
bool is_list(const At& at) {
  if (at.from.kind != Kind::list) {
    at.fault(FaultCode::wrong_type, at.accepted(), replace_by(at.field));
    return false;
  }
  const std::size_t n = at.from.items.size();
  if (n > at.field.most_items) {
    constexpr std::size_t kManyAtOnce = 200;  // from here on nobody counts them by hand
    at.fault(FaultCode::too_many, at.accepted(),
             at.field.most_items < kManyAtOnce ? fmt::format("keep {} of them", at.field.most_items)
                                               : std::string("split the job into several files"));
    return false;
  }
  if (n < at.field.least_items) {
    at.fault(FaultCode::out_of_range, at.accepted(), replace_by(at.field));
    return false;
  }
  return true;
}

std::optional<Scalar> point_value(const At& at) {
  if (at.from.kind != Kind::list || at.from.items.size() != 2) {
    at.fault(FaultCode::wrong_type, "a point [u, s] of two lengths", replace_by(at.field));
    return std::nullopt;
  }
  const Path first = at.path.item(0);
  const Path second = at.path.item(1);
  const std::optional<double> u = ranged_value({at.reading, at.field, at.from.items[0], first});
  const std::optional<double> s = ranged_value({at.reading, at.field, at.from.items[1], second});
  if (!u || !s) return std::nullopt;
  Scalar out;
  out.value = *u;
  out.spread = *s;
  return out;
}

template <class ReadOne>
void read_items(const At& at, void* into, ReadOne read_one) {
  if (!is_list(at)) return;
  for (std::size_t i = 0; i < at.from.items.size(); ++i) {
    const Path path = at.path.item(i);
    const std::optional<Scalar> value = read_one(At{at.reading, at.field, at.from.items[i], path});
    if (value) at.field.put(into, *value);
  }
}

void read_objects(const At& at, void* into) {
  if (!is_list(at)) return;
  for (std::size_t i = 0; i < at.from.items.size(); ++i) {
    read_object(at.reading, *at.field.of, at.from.items[i], at.field.child(into), at.path.item(i));
  }
}

void read_gaps(const At& at, void* into) {
  const auto& items = at.from.items;
  const bool places = at.from.kind == Kind::list && !items.empty() && items.front().kind == Kind::object;
  if (places) {
    read_objects(at, into);
  } else if (const std::optional<Scalar> value = measured_value(at)) {
    at.field.put(into, *value);
  }
}

// Each member becomes one value: `text` its key, `word` 1 where the number is bare, 0 where a unit was named.
void read_overrides(const At& at, void* into) {
  if (at.from.kind != Kind::object) {
    at.fault(FaultCode::wrong_type, at.accepted(), replace_by(at.field));
    return;
  }
  if (at.from.members.size() > at.field.most_items) {
    at.fault(FaultCode::too_many, at.accepted(), "keep only the rules that you mean to change");
    return;
  }
  for (const Document::Member& member : at.from.members) {
    const Path path = at.path.under(member.key);
    const At one{at.reading, at.field, member.value, path};
    Scalar out;
    out.text = member.key;
    if (member.value.kind == Kind::number) {
      out.value = member.value.number;
      out.word = 1;
    } else if (member.value.kind == Kind::text) {
      const Result<Length> length = read_length(member.value.text, at.reading.unit());
      if (!length) {
        at.reading.place(length.error().front(), path, member.value.spot);
        continue;
      }
      out.value = length->in_mm();
    } else {
      one.fault(FaultCode::wrong_type, "a number, or a length such as \"75 mm\"",
                "write the rule's value alone");
      continue;
    }
    if (!inside(out.value, at.field.range)) {
      one.fault(FaultCode::out_of_range, "0 or more, at most 1000000", "write the value of the rule");
      continue;
    }
    Override& made = *static_cast<Override*>(at.field.child(into));
    made = {out.text, out.value, out.word == 0, out.word == 1, member.spot};
  }
}

void read_field(const At& at, void* into) {
  std::optional<Scalar> value;
  switch (at.field.shape) {
    case Shape::format:
      return read_format(at);
    case Shape::object:
      return read_object(at.reading, *at.field.of, at.from, at.field.child(into), at.path);
    case Shape::objects:
      return read_objects(at, into);
    case Shape::measured_lengths:
      return read_items(at, into, measured_value);
    case Shape::points:
      return read_items(at, into, point_value);
    case Shape::names:
      return read_items(at, into, text_value);
    case Shape::gaps:
      return read_gaps(at, into);
    case Shape::overrides:
      return read_overrides(at, into);
    case Shape::text:
      value = text_value(at);
      break;
    case Shape::choice:
      value = choice_value(at);
      break;
    case Shape::count:
      value = count_value(at);
      break;
    case Shape::length:
    case Shape::percent:
    case Shape::angle: {
      const std::optional<double> number = ranged_value(at);
      if (!number) return;
      value.emplace().value = *number;
      break;
    }
    case Shape::measured_length:
    case Shape::measured_angle:
      value = measured_value(at);
      break;
  }
  if (value) at.field.put(into, *value);
}

const Field* field_of(const Table& table, std::string_view key) {
  for (const Field& field : table.fields) {
    if (field.key == key) return &field;
  }
  return nullptr;
}

// The bit of the object's kind; no bit when the table has no kinds, or the file names none of them.
Kinds kind_bit(const Table& table, const Document& from) {
  const Document* kind = table.kinds.empty() ? nullptr : from.find("kind");
  if (kind == nullptr || kind->kind != Kind::text) return 0;
  for (std::size_t i = 0; i < table.kinds.size(); ++i) {
    if (table.kinds[i] == kind->text) return Kinds{1} << i;
  }
  return 0;
}

void fault_unknown(Reading& reading, const Table& table, const Document::Member& member, Kinds bit,
                   const Path& path) {
  std::vector<Word> known;
  for (const Field& field : table.fields) {
    if (bit == 0 || (field.allowed & bit) != 0) known.push_back(field.key);
  }
  const std::optional<Word> near = nearest(member.key, known);
  std::string accepted = "the keys ";
  for (std::size_t i = 0; i < known.size(); ++i) {
    if (i != 0) accepted += ", ";
    accepted += known[i];
  }
  reading.fault(FaultCode::unknown_key, path, member.spot, lapwright::quoted(member.key), std::move(accepted),
                near ? fmt::format("did you mean \"{}\"?", *near) : "remove it");
}

void fault_misplaced(Reading& reading, const Table& table, const Field& field, const Document::Member& member,
                     std::string_view kind, const Path& path) {
  std::vector<Word> owners;
  for (std::size_t i = 0; i < table.kinds.size(); ++i) {
    if ((field.allowed & (Kinds{1} << i)) != 0) owners.push_back(table.kinds[i]);
  }
  reading.fault(FaultCode::contradiction, path, member.spot,
                fmt::format("\"{}\" with kind \"{}\"", field.key, kind),
                fmt::format("\"{}\" only with kind {}", field.key, listed(owners)),
                fmt::format("remove \"{}\", or change the kind", field.key));
}

}  // namespace

std::string listed(Words words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i != 0) out += i + 1 == words.size() ? " or " : ", ";
    out += fmt::format("\"{}\"", words[i]);
  }
  return out;
}

void read_object(Reading& reading, const Table& table, const Document& from, void* into, const Path& path) {
  if (table.begin != nullptr) table.begin(into, from.spot, path);
  if (from.kind != Kind::object) {
    reading.fault(FaultCode::wrong_type, path, from.spot, shown(from),
                  fmt::format("a {} as an object", table.name), "write { ... } with the keys in it");
    return;
  }
  const Kinds bit = kind_bit(table, from);
  for (const Document::Member& member : from.members) {
    const Path at = path.under(member.key);
    const Field* field = field_of(table, member.key);
    if (field == nullptr) {
      fault_unknown(reading, table, member, bit, at);
    } else if (bit != 0 && (field->allowed & bit) == 0) {
      fault_misplaced(reading, table, *field, member, from.find("kind")->text, at);
    } else {
      read_field({reading, *field, member.value, at}, into);
    }
  }
  for (const Field& field : table.fields) {
    const bool needed = field.needed == kAllKinds || (field.needed & bit) != 0;
    if (!needed || from.find(field.key) != nullptr) continue;
    reading.fault(FaultCode::missing_key, path.under(field.key), from.spot, "nothing",
                  accepted_by(field, reading.unit()),
                  fmt::format("add \"{}\"{}{}", field.key, field.example.empty() ? "" : ", for example ",
                              field.example.empty() ? std::string_view() : field.example));
  }
  if (table.check != nullptr) table.check(reading, from, into, path);
}

}  // namespace lapwright::job
