// An answer, and its bytes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "serve/head.h"

namespace lapwright::serve {

struct Reply {
  int status = 200;
  std::string type = "text/plain; charset=utf-8";
  std::vector<Field> fields;  // beside those that every answer has; names as they are to be written
  std::string body;
  std::string_view shared;  // instead of a body: bytes that live as long as the server
  bool close = false;       // end the connection after it

  std::string_view bytes() const { return shared.empty() ? std::string_view(body) : shared; }
};

// One line for a person.
Reply plain(int status, std::string_view line);

// The first line and the fields, with those that keep a browser strict: nothing is loaded from or sent to
// anywhere else, nothing is guessed from its bytes, no other site frames or reads it. `keep`: the connection
// stays open.
std::string head_of(const Reply& reply, bool keep);

}  // namespace lapwright::serve
