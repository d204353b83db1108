// Who may ask. Judged on the head alone, before any body is read.
//
// A page of another site can make a browser send requests here, and can even make its own name point here
// (DNS rebinding). So the host that a request names must be one of this server's own, and where the browser
// says where the request comes from, that must be here too. Beyond this machine, a random token is needed
// besides.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "serve/head.h"
#include "serve/reply.h"

namespace lapwright::serve {

struct Gate {
  std::uint16_t port = 0;
  std::string token;               // empty: none is asked for
  std::vector<std::string> names;  // of this machine, in lower case, beside its addresses
};

// Nothing when it may pass. `address`: the server's end of this connection, as text: "127.0.0.1", "::1". The
// link with the token is answered here as well: it sets the cookie and leads to the same place without the
// token.
std::optional<Reply> stop_at(const Gate& gate, const Head& head, std::string_view address);

// "127.0.0.1" and all of 127.0.0.0/8; "::1".
bool is_loopback(std::string_view address);

// 128 random bits in hexadecimal digits; empty when the system gives none.
std::string make_token();

}  // namespace lapwright::serve
