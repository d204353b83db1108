// A text with places for params: "Headlap {headlap:up}, from {table}."
#pragma once

#include <lapwright/practice/catalogue.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::practice {

struct TemplatePart {
  bool is_param = false;
  std::string_view text;  // of the template itself, or the param's name
  ShownHow how = ShownHow::nearest;
};

// What is wrong with the template; empty when it is sound.
std::optional<std::string> template_complaint(std::string_view text);
// Its parts in order, pointing into `text`. REQUIRES a sound template.
std::vector<TemplatePart> template_parts(std::string_view text);

}  // namespace lapwright::practice
