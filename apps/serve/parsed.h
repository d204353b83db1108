// What Beast's parser has read, as a Head. Only the server and the fuzzer include it: Beast takes seconds to
// compile.
#pragma once

#include <boost/beast/core/string.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/string_body.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>

#include "serve/head.h"
#include "serve/jobs.h"

namespace lapwright::serve {

using Parser = boost::beast::http::request_parser<boost::beast::http::string_body>;

inline constexpr std::uint32_t kMostHead = 16'384;  // bytes of the first line and the fields together

inline void set_limits(Parser& parser) {
  parser.header_limit(kMostHead);
  parser.body_limit(kMostJobBytes);
}

// Of a parser that has the whole head.
inline Head head_in(const Parser& parser) {
  const auto text = [](boost::beast::string_view part) { return std::string(part.data(), part.size()); };
  const auto& message = parser.get();
  Head head;
  head.method = text(message.method_string());
  const std::string target = text(message.target());
  const std::size_t mark = std::min(target.find('?'), target.size());
  head.path = target.substr(0, mark);
  if (mark < target.size()) head.query = target.substr(mark + 1);
  for (const auto& field : message) {
    head.fields.push_back({lower(text(field.name_string())), text(field.value())});
  }
  if (const auto length = parser.content_length()) {
    head.has_length = true;
    head.length = *length;
  }
  return head;
}

}  // namespace lapwright::serve
