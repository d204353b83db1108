#include "serve/addresses.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cstring>
#include <memory>

namespace lapwright::serve {

std::string with_port(const std::string& address, std::uint16_t port) {
  const bool six = address.find(':') != std::string::npos;
  return (six ? "[" + address + "]" : address) + ":" + std::to_string(port);
}

std::vector<std::string> own_addresses() {
  std::vector<std::string> addresses;
  ifaddrs* first = nullptr;
  if (::getifaddrs(&first) != 0) return addresses;
  const std::unique_ptr<ifaddrs, void (*)(ifaddrs*)> list(first, &::freeifaddrs);
  for (const ifaddrs* one = list.get(); one != nullptr; one = one->ifa_next) {
    const bool up =
        (one->ifa_flags & unsigned{IFF_UP}) != 0 && (one->ifa_flags & unsigned{IFF_LOOPBACK}) == 0;
    if (!up || one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET) continue;
    sockaddr_in four{};
    std::memcpy(&four, one->ifa_addr, sizeof four);
    std::array<char, INET_ADDRSTRLEN> text{};
    ::inet_ntop(AF_INET, &four.sin_addr, text.data(), text.size());
    addresses.emplace_back(text.data());
  }
  return addresses;
}

std::vector<std::string> own_names() {
  std::array<char, 256> text{};
  if (::gethostname(text.data(), text.size() - 1) != 0) return {};
  std::string name = text.data();
  for (char& c : name) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  if (name.empty()) return {};
  return {name, name + ".local"};
}

}  // namespace lapwright::serve
