// The listening socket.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "serve/descriptor.h"

namespace lapwright::serve {

struct Listener {
  Descriptor socket;
  std::uint16_t port = 0;  // as the system gave it, where 0 was asked for
  std::string problem;     // one line, when there is no socket
};

// `address`: a numeric address, or "localhost". Every address of the machine: "0.0.0.0" or "::".
Listener listen_at(const std::string& address, std::uint16_t port);

struct Accepted {
  Descriptor socket;
  std::string address;  // of this end
};

// Nothing when nobody waits. Never blocks.
std::optional<Accepted> accept_from(const Descriptor& listener);

// "127.0.0.1:80", "[::1]:80"
std::string with_port(const std::string& address, std::uint16_t port);

// The addresses at which others reach this machine, for a server that listens at all of them.
std::vector<std::string> own_addresses();

// Its own name, and the one that it has on a local network without a name server ("NAME.local").
std::vector<std::string> own_names();

}  // namespace lapwright::serve
