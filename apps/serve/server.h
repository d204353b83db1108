// The network's side: Boost.Asio and Boost.Beast in one thread. Nobody is waited for, so that a client that
// is slow holds up nobody.
#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <string>

#include "serve/site.h"

namespace lapwright::serve {

class Server {
 public:
  // From here on Ctrl-C and SIGTERM end the server and not the program.
  Server();
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  // `address`: in numbers, or "localhost"; every address of the machine: "0.0.0.0" or "::". Port 0: any that
  // is free. What stands in the way, in one line; empty when nothing does.
  std::string listen(const std::string& address, std::uint16_t port);

  // As the system gave it.
  std::uint16_t port() const;

  // Serves until it is told to end. Answers that are on their way then get two seconds more.
  // `patience`: how long a client may take for a head; other steps have a multiple of it.
  void run(const Site& site, std::chrono::seconds patience);

 private:
  struct Network;
  std::unique_ptr<Network> network_;
};

}  // namespace lapwright::serve
