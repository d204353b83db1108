#include "serve/listener.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <sys/socket.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <memory>

namespace lapwright::serve {

namespace {

// Room for either family, as the system's calls want it.
struct Place {
  sockaddr_storage storage{};
  socklen_t size = sizeof(sockaddr_storage);
  sockaddr* get() { return reinterpret_cast<sockaddr*>(&storage); }
};

std::optional<Place> place_of(const std::string& address, std::uint16_t port) {
  Place place;
  sockaddr_in four{};
  four.sin_family = AF_INET;
  four.sin_port = htons(port);
  if (::inet_pton(AF_INET, address.c_str(), &four.sin_addr) == 1) {
    std::memcpy(&place.storage, &four, sizeof four);
    place.size = sizeof four;
    return place;
  }
  sockaddr_in6 six{};
  six.sin6_family = AF_INET6;
  six.sin6_port = htons(port);
  if (::inet_pton(AF_INET6, address.c_str(), &six.sin6_addr) == 1) {
    std::memcpy(&place.storage, &six, sizeof six);
    place.size = sizeof six;
    return place;
  }
  return std::nullopt;
}

std::uint16_t port_of(const Place& place) {
  if (place.storage.ss_family == AF_INET) {
    sockaddr_in four{};
    std::memcpy(&four, &place.storage, sizeof four);
    return ntohs(four.sin_port);
  }
  sockaddr_in6 six{};
  std::memcpy(&six, &place.storage, sizeof six);
  return ntohs(six.sin6_port);
}

// A client of the older family at a socket for both is written as one of the older family.
std::string text_of(const sockaddr_storage& storage) {
  std::array<char, INET6_ADDRSTRLEN> text{};
  if (storage.ss_family == AF_INET) {
    sockaddr_in four{};
    std::memcpy(&four, &storage, sizeof four);
    ::inet_ntop(AF_INET, &four.sin_addr, text.data(), text.size());
    return text.data();
  }
  sockaddr_in6 six{};
  std::memcpy(&six, &storage, sizeof six);
  ::inet_ntop(AF_INET6, &six.sin6_addr, text.data(), text.size());
  const std::string full = text.data();
  constexpr std::string_view kOlder = "::ffff:";
  return full.starts_with(kOlder) && full.find('.') != std::string::npos ? full.substr(kOlder.size()) : full;
}

}  // namespace

std::string with_port(const std::string& address, std::uint16_t port) {
  const bool six = address.find(':') != std::string::npos;
  return (six ? "[" + address + "]" : address) + ":" + std::to_string(port);
}

Listener listen_at(const std::string& address, std::uint16_t port) {
  Listener made;
  const std::string numeric = address == "localhost" ? "127.0.0.1" : address;
  std::optional<Place> place = place_of(numeric, port);
  if (!place) {
    made.problem = "--listen: read \"" + address +
                   "\"; accepted: an address in numbers, such as 127.0.0.1, or localhost";
    return made;
  }
  const std::string where = with_port(numeric, port);
  Descriptor socket(::socket(place->storage.ss_family, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0));
  const int on = 1;
  const int off = 0;
  if (socket) {
    // A server that was just ended may be started again at once.
    ::setsockopt(socket.get(), SOL_SOCKET, SO_REUSEADDR, &on, sizeof on);
    if (place->storage.ss_family == AF_INET6) {
      ::setsockopt(socket.get(), IPPROTO_IPV6, IPV6_V6ONLY, &off, sizeof off);
    }
  }
  if (!socket || ::bind(socket.get(), place->get(), place->size) != 0 || ::listen(socket.get(), 128) != 0) {
    made.problem =
        errno == EADDRINUSE
            ? where + " is taken, perhaps by a lapwright that is already serving; another: --port NUMBER"
            : where + ": cannot be listened at: " + std::strerror(errno);
    return made;
  }
  Place bound;
  ::getsockname(socket.get(), bound.get(), &bound.size);
  made.port = port_of(bound);
  made.socket = std::move(socket);
  return made;
}

std::optional<Accepted> accept_from(const Descriptor& listener) {
  Accepted accepted;
  accepted.socket = Descriptor(::accept4(listener.get(), nullptr, nullptr, SOCK_NONBLOCK | SOCK_CLOEXEC));
  if (!accepted.socket) return std::nullopt;
  const int on = 1;
  // Without it the last part of each answer waits for the client's word that it has the first.
  ::setsockopt(accepted.socket.get(), IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
  Place here;
  if (::getsockname(accepted.socket.get(), here.get(), &here.size) != 0) return std::nullopt;
  accepted.address = text_of(here.storage);
  return accepted;
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
    sockaddr_storage storage{};
    std::memcpy(&storage, one->ifa_addr, sizeof(sockaddr_in));
    addresses.push_back(text_of(storage));
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
