#include "serve/server.h"

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/v6_only.hpp>
#include <boost/asio/signal_set.hpp>

#include <algorithm>
#include <array>
#include <csignal>
#include <utility>

#include "serve/addresses.h"
#include "serve/connection.h"

namespace lapwright::serve {

namespace {

namespace asio = boost::asio;

// Well below the 1024 descriptors that a process usually has.
constexpr std::size_t kMostConnections = 256;
constexpr std::chrono::seconds kFarewell{2};

constexpr std::array<int, 3> kEnding = {SIGINT, SIGTERM, SIGHUP};

// From now on until the program is gone: who presses Ctrl-C again while the first is obeyed gets the same
// end.
void hold_back_signals() {
  sigset_t held{};
  sigemptyset(&held);
  for (const int signal : kEnding) sigaddset(&held, signal);
  (void)pthread_sigmask(SIG_BLOCK, &held, nullptr);
}

bool asks_for_something(Connection::Phase phase) {
  return phase == Connection::Phase::body || phase == Connection::Phase::answer;
}

// Who has asked for nothing yet goes first, the one who has been at it longest; then whoever has been longest
// in the same step. So a crowd that never asks cannot keep out one who does.
void make_room(const std::list<Connection*>& open) {
  const auto earlier = [](const Connection* a, const Connection* b) {
    const bool a_asks = asks_for_something(a->phase());
    const bool b_asks = asks_for_something(b->phase());
    return a_asks != b_asks ? b_asks : a->since() < b->since();
  };
  const auto victim = std::ranges::min_element(open, earlier);
  if (victim != open.end()) (*victim)->close();
}

}  // namespace

struct Server::Network {
  asio::io_context io{1};  // one thread
  asio::signal_set signals{io};
  Tcp::acceptor acceptor{io};

  void accept(Shared& shared);
};

Server::Server() : network_(std::make_unique<Network>()) {
  Error ignored;
  for (const int signal : kEnding) network_->signals.add(signal, ignored);
  // These would end the program where an error can be told instead: a reader that is gone, a limit on file
  // sizes.
  for (const int signal : {SIGPIPE, SIGXFSZ}) (void)std::signal(signal, SIG_IGN);
}

Server::~Server() = default;

std::string Server::listen(const std::string& address, std::uint16_t port) {
  const std::string numeric = address == "localhost" ? "127.0.0.1" : address;
  Error error;
  const Tcp::endpoint place(asio::ip::make_address(numeric, error), port);
  if (error) {
    return "--listen: read \"" + address +
           "\"; accepted: an address in numbers, such as 127.0.0.1, or localhost";
  }
  Tcp::acceptor& acceptor = network_->acceptor;
  Error ignored;
  acceptor.open(place.protocol(), error);
  // A server that was just ended may be started again at once.
  acceptor.set_option(Tcp::acceptor::reuse_address(true), ignored);
  if (place.address().is_v6()) acceptor.set_option(asio::ip::v6_only(false), ignored);
  if (!error) acceptor.bind(place, error);
  if (!error) acceptor.listen(128, error);
  if (!error) return {};
  const std::string where = with_port(numeric, port);
  if (error == asio::error::address_in_use) {
    return where + " is taken, perhaps by a lapwright that is already serving; another: --port NUMBER";
  }
  return where + ": cannot be listened at: " + error.message();
}

std::uint16_t Server::port() const {
  Error ignored;
  return network_->acceptor.local_endpoint(ignored).port();
}

void Server::Network::accept(Shared& shared) {
  acceptor.async_accept([this, &shared](const Error& error, Tcp::socket socket) {
    if (error == asio::error::operation_aborted) return;
    const bool none_left = error == asio::error::no_descriptors;
    if (none_left || shared.open.size() >= kMostConnections) make_room(shared.open);
    if (!error) std::make_shared<Connection>(std::move(socket), shared)->await_request();
    accept(shared);
  });
}

void Server::run(const Site& site, std::chrono::seconds patience) {
  Shared shared{site, Patience(patience), {}, 0, false};
  asio::io_context& io = network_->io;
  network_->signals.async_wait([&io](const Error& /*error*/, int /*signal*/) { io.stop(); });
  network_->accept(shared);
  io.run();
  hold_back_signals();

  // A request that is whole has its answer by now; what is left to do is to send it.
  shared.stopping = true;
  Error ignored;
  network_->acceptor.close(ignored);
  for (Connection* one : shared.open) {
    if (one->phase() != Connection::Phase::answer) one->close();
  }
  io.restart();
  const auto farewell = Clock::now() + kFarewell;
  while (!shared.open.empty() && io.run_one_until(farewell) > 0) {
  }
  network_.reset();  // with every connection, while what they share is still there
}

}  // namespace lapwright::serve
