// What a field accepts, in words.
#include <lapwright/base/numbers.h>

#include <fmt/core.h>

#include "table_reader.h"

namespace lapwright::job {

namespace {

std::string with_unit(double value, const Field& field, LengthUnit unit) {
  switch (field.shape) {
    case Shape::angle:
    case Shape::measured_angle:
      return trimmed(value, 3) + " degrees";
    case Shape::count:
      return trimmed(value, 0);
    case Shape::percent:
      return trimmed(value, 2) + " %";
    case Shape::overrides:
      return trimmed(value, 3);
    default:
      return shown_length(value, unit);
  }
}

// As it stands in a sentence of a page: short, in the file's unit alone.
std::string bound(double value, const Field& field, LengthUnit unit) {
  const bool is_angle = field.shape == Shape::angle || field.shape == Shape::measured_angle;
  if (is_angle) return trimmed(value, 3) + "°";
  const bool is_plain = field.shape == Shape::count || field.shape == Shape::percent;
  return is_plain ? with_unit(value, field, unit) : shown_bound(value, unit);
}

}  // namespace

FaultRange range_of(const Field& field, LengthUnit unit) {
  switch (field.shape) {
    case Shape::length:
    case Shape::measured_length:
    case Shape::measured_lengths:
    case Shape::points:
    case Shape::gaps:
    case Shape::angle:
    case Shape::measured_angle:
    case Shape::count:
    case Shape::percent:
      return {bound(field.range.low, field, unit), bound(field.range.high, field, unit),
              field.range.above_low, field.range.below_high};
    default:
      return {};
  }
}

std::string accepted_range(const Field& field, LengthUnit unit) {
  const Range& range = field.range;
  if (field.shape == Shape::text || field.shape == Shape::names) {
    return fmt::format("{} to {} characters", trimmed(range.low, 0), trimmed(range.high, 0));
  }
  return fmt::format("{} {} and {} {}", range.above_low ? "more than" : "at least",
                     with_unit(range.low, field, unit), range.below_high ? "less than" : "at most",
                     with_unit(range.high, field, unit));
}

std::string accepted_by(const Field& field, LengthUnit unit) {
  std::string range = accepted_range(field, unit);
  switch (field.shape) {
    case Shape::format:
      return fmt::format("\"{}\"", field.words.front());
    case Shape::text:
      return fmt::format("a text in one line, {}", range);
    case Shape::choice:
      return listed(field.words);
    case Shape::length:
      return fmt::format("a length, {}", range);
    case Shape::measured_length:
      return fmt::format("a length or [length, ±], {}", range);
    case Shape::angle:
    case Shape::percent:
      return fmt::format("a number, {}", range);
    case Shape::measured_angle:
      return fmt::format("a number or [number, ±], {}", range);
    case Shape::count:
      return fmt::format("a whole number, {}", range);
    case Shape::object:
      return "an object { ... }";
    case Shape::gaps:
      return fmt::format("a length or [length, ±], {}, or a list of {{\"at\": ..., \"width\": ...}}", range);
    case Shape::objects:
    case Shape::measured_lengths:
    case Shape::points:
    case Shape::names:
      return fmt::format("a list of {} {}",
                         field.least_items == field.most_items
                             ? fmt::format("{}", field.least_items)
                             : fmt::format("{} to {}", field.least_items, field.most_items),
                         field.shape == Shape::objects            ? "objects"
                         : field.shape == Shape::measured_lengths ? "lengths"
                         : field.shape == Shape::points           ? "points [u, s]"
                                                                  : "names");
    case Shape::overrides:
      return fmt::format("an object of at most {} rules, each with a number or a length", field.most_items);
  }
  return range;
}

}  // namespace lapwright::job
