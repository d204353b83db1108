#include "words.h"

#include <lapwright/job/length_text.h>

namespace lapwright::sheets {

namespace {

job::Rounding rounding_of(ShownHow how) {
  if (how == ShownHow::up) return job::Rounding::up;
  if (how == ShownHow::down) return job::Rounding::down;
  return job::Rounding::nearest;
}

}  // namespace

std::string Words::length(Length length, ShownHow how) const {
  return value(length.in_mm(), "mm", how);
}

std::string Words::tape(Length length, ShownHow how) const {
  return shown_in_ == job::ShownIn::mm ? job::shown_mm(length, rounding_of(how))
                                       : job::shown_inches(length, rounding_of(how));
}

std::string Words::value(double value, std::string_view unit, ShownHow how) const {
  return practice::shown(value, unit, shown_in_, how);
}

std::string file_stem(std::string_view text) {
  constexpr std::size_t kLongest = 60;
  std::string out;
  for (const char c : text) {
    const bool capital = c >= 'A' && c <= 'Z';
    const bool kept = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (kept || capital) {
      out += capital ? static_cast<char>(c - 'A' + 'a') : c;
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
    if (out.size() >= kLongest) break;
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out.empty() ? "x" : out;
}

}  // namespace lapwright::sheets
