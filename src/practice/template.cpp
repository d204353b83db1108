#include "template.h"

#include <array>
#include <cassert>
#include <utility>

namespace lapwright::practice {

namespace {

constexpr std::array<std::pair<std::string_view, ShownHow>, 4> kHows{{
    {"", ShownHow::nearest},
    {":up", ShownHow::up},
    {":down", ShownHow::down},
    {":fine", ShownHow::fine},
}};

bool is_name(std::string_view text) {
  if (text.empty()) return false;
  for (const char c : text) {
    const bool fine = ('a' <= c && c <= 'z') || ('0' <= c && c <= '9') || c == '_';
    if (!fine) return false;
  }
  return true;
}

// Cuts `text` into parts; on an unsound template says why.
std::optional<std::string> cut(std::string_view text, std::vector<TemplatePart>& parts) {
  while (!text.empty()) {
    const std::size_t brace = text.find_first_of("{}");
    if (brace != 0) parts.push_back({false, text.substr(0, brace), ShownHow::nearest});
    if (brace == std::string_view::npos) return std::nullopt;
    const std::size_t end = text.find('}', brace);
    if (text[brace] == '}') return "a } without a {";
    if (end == std::string_view::npos) return "a { without a }";
    const std::string_view inside = text.substr(brace + 1, end - brace - 1);
    const std::size_t colon = inside.find(':');
    const std::string_view name = inside.substr(0, colon);
    const std::string_view option =
        colon == std::string_view::npos ? std::string_view() : inside.substr(colon);
    if (!is_name(name)) return "a param's name is lower-case letters, digits and _";
    bool is_known = false;
    for (const auto& [word, how] : kHows) {
      if (word != option) continue;
      parts.push_back({true, name, how});
      is_known = true;
    }
    if (!is_known) return "only :up, :down and :fine may follow a param's name";
    text.remove_prefix(end + 1);
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> template_complaint(std::string_view text) {
  std::vector<TemplatePart> parts;
  return cut(text, parts);
}

std::vector<TemplatePart> template_parts(std::string_view text) {
  std::vector<TemplatePart> parts;
  [[maybe_unused]] const std::optional<std::string> complaint = cut(text, parts);
  assert(!complaint);
  return parts;
}

}  // namespace lapwright::practice
