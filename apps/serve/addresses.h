// By which addresses and names others reach this machine.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace lapwright::serve {

// "127.0.0.1:80", "[::1]:80"
std::string with_port(const std::string& address, std::uint16_t port);

// The addresses at which others reach this machine, for a server that listens at all of them.
std::vector<std::string> own_addresses();

// Its own name, and the one that it has on a local network without a name server ("NAME.local").
std::vector<std::string> own_names();

}  // namespace lapwright::serve
