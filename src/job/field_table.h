// What a JSON object of the job file may hold, as data: one table per struct.
//
// table_reader.cpp fills structs by these tables and words its faults from them; survey_schema.cpp prints
// them. A field that stands in no table does not exist.
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/job/document.h>

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "words.h"

namespace lapwright::job {

class Reading;
struct Path;
struct Table;

enum class Shape : std::uint8_t {
  format,            // the text that names the format
  text,              // one line
  choice,            // one of `words`
  length,            // a number in the file's unit, or a text
  measured_length,   // that, or [length, ±]
  angle,             // degrees
  measured_angle,    // that, or [degrees, ±]
  count,             // a whole number
  percent,           // a number
  object,            // by table `of`
  objects,           // a list of them
  measured_lengths,  // a list
  points,            // a list of [length, length]
  names,             // a list of texts
  gaps,              // a measured length, or a list of objects by table `of`
  overrides,         // an object of any keys: numbers, or texts of lengths
};

// Bounds of a value: mm, degrees, a count, or the characters of a text; of a point's two lengths.
struct Range {
  double low = 0;
  double high = 0;
  bool above_low = false;   // the low bound itself is refused
  bool below_high = false;  // the high bound itself is refused
};

// One value as read, before it takes its place in a struct.
struct Scalar {
  double value = 0;
  double spread = 0;  // of a point: its second length
  std::string text;
  std::size_t word = 0;
};

using Put = void (*)(void* into, const Scalar& value);
using Child = void* (*)(void* into);
using Kinds = std::uint32_t;  // one bit per word of the table's `kinds`
inline constexpr Kinds kAllKinds = ~Kinds{0};

struct Field {
  std::string_view key;
  Shape shape = Shape::text;
  std::string_view about;    // for the schema
  std::string_view example;  // JSON, for mending
  Range range{};
  Words words{};
  const Table* of = nullptr;
  std::size_t least_items = 0;
  std::size_t most_items = 0;
  Kinds needed = 0;           // kinds that must give it
  Kinds allowed = kAllKinds;  // kinds that may
  Put put = nullptr;
  Child child = nullptr;
};

struct Table {
  std::string_view name;  // "slope", for messages and the schema's $defs
  std::span<const Field> fields;
  Words kinds{};  // of the field "kind", when it decides what else is allowed
  void (*begin)(void* into, SourceSpot spot, const Path& path) = nullptr;
  void (*check)(Reading& reading, const Document& from, void* into, const Path& path) = nullptr;
};

namespace detail {

template <class T>
struct IsMeasured : std::false_type {};
template <class Q>
struct IsMeasured<Measured<Q>> : std::true_type {};
template <class T>
struct IsOptional : std::false_type {};
template <class T>
struct IsOptional<std::optional<T>> : std::true_type {};
template <class T>
struct IsVector : std::false_type {};
template <class T>
struct IsVector<std::vector<T>> : std::true_type {};

template <class T>
void assign(T& target, const Scalar& v) {
  if constexpr (std::is_same_v<T, std::string>) {
    target = v.text;
  } else if constexpr (IsVector<T>::value) {
    assign(target.emplace_back(), v);
  } else if constexpr (IsOptional<T>::value) {
    assign(target.emplace(), v);
  } else if constexpr (std::is_same_v<T, Length>) {
    target = Length::mm(v.value);
  } else if constexpr (std::is_same_v<T, Angle>) {
    target = Angle::degrees(v.value);
  } else if constexpr (IsMeasured<T>::value) {
    assign(target.value, v);
    Scalar spread;
    spread.value = v.spread;
    assign(target.spread, spread);
  } else if constexpr (std::is_same_v<T, bool>) {
    target = v.word == 1;
  } else if constexpr (std::is_enum_v<T>) {
    target = static_cast<T>(v.word);
  } else {
    static_assert(std::is_same_v<T, std::int64_t>);
    target = static_cast<std::int64_t>(v.value);
  }
}

template <class M>
struct MemberOf;
template <class S, class T>
struct MemberOf<T S::*> {
  using Struct = S;
};

}  // namespace detail

// Puts a value into the member; appends where the member is a list.
template <auto Member>
void put(void* into, const Scalar& value) {
  using S = typename detail::MemberOf<decltype(Member)>::Struct;
  detail::assign(static_cast<S*>(into)->*Member, value);
}

// The member itself, or a new item at its end where it is a list.
template <auto Member>
void* child(void* into) {
  using S = typename detail::MemberOf<decltype(Member)>::Struct;
  auto& target = static_cast<S*>(into)->*Member;
  if constexpr (detail::IsVector<std::remove_reference_t<decltype(target)>>::value) {
    return &target.emplace_back();
  } else {
    return &target;
  }
}

// The struct in an optional member, made when its object stands in the file.
template <auto Member>
void* child_if_any(void* into) {
  using S = typename detail::MemberOf<decltype(Member)>::Struct;
  return &(static_cast<S*>(into)->*Member).emplace();
}

}  // namespace lapwright::job
