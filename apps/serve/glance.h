// A look at bytes that are said to be a job: are they JSON, and what is its title? The engine in the page
// judges the job itself; one that is half measured is kept as well.
#pragma once

#include <string>
#include <string_view>

namespace lapwright::serve {

struct Glance {
  std::string fault;  // one line; empty when the bytes are a JSON object in UTF-8, not too deep
  std::string title;  // the object's "title", where it is a text
};

Glance glance_at(std::string_view bytes);

// The text as a JSON string, in its quotes. Bytes that are not UTF-8 become the replacement character.
std::string json_text(std::string_view text);

}  // namespace lapwright::serve
