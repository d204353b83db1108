#include "serve/loop.h"

#include <poll.h>

#include <algorithm>
#include <cerrno>
#include <cstddef>
#include <cstdint>
#include <list>
#include <optional>
#include <vector>

#include "serve/connection.h"
#include "serve/listener.h"

namespace lapwright::serve {

namespace {

// Well below the 1024 descriptors that a process usually has.
constexpr std::size_t kMostConnections = 256;
// Of bodies that are on their way in, all together.
constexpr std::size_t kMostBodies = 64'000'000;
constexpr std::chrono::seconds kFarewell{2};

using Phase = Connection::Phase;

class Loop {
 public:
  Loop(const Descriptor& stop, const Descriptor& listener, const Site& site, std::chrono::seconds patience)
      : stop_(stop), listener_(listener), site_(site), patience_(patience) {}

  void run() {
    while (!stopping_ || !connections_.empty()) turn();
  }

 private:
  // One round: wait until something happens, then see to everyone to whom it happened.
  void turn() {
    std::vector<pollfd> polled;
    if (!stopping_) polled = {{stop_.get(), POLLIN, 0}, {listener_.get(), POLLIN, 0}};
    const std::size_t first = polled.size();
    for (const Connection& one : connections_) {
      const int events = one.wants_to_write() ? POLLOUT : POLLIN;
      polled.push_back({one.socket(), static_cast<short>(events), 0});
    }
    if (::poll(polled.data(), polled.size(), wait()) < 0 && errno != EINTR) return;

    const Clock::time_point now = Clock::now();
    std::size_t at = first;
    for (Connection& one : connections_) {
      if (polled[at++].revents != 0 || one.has_more_to_read()) {
        one.proceed(now, room());
      } else if (one.deadline() <= now) {
        one.expire(now);
      }
    }
    connections_.remove_if([](const Connection& one) { return one.phase() == Phase::over; });
    if (stopping_) {
      if (now >= farewell_) connections_.clear();
      return;
    }
    if (polled[0].revents != 0) return begin_to_stop(now);
    if (polled[1].revents != 0) take_in(now);
  }

  // Until the next deadline, in milliseconds.
  int wait() const {
    Clock::time_point next = Clock::now() + std::chrono::seconds(60);
    for (const Connection& one : connections_) {
      if (one.has_more_to_read()) return 0;
      next = std::min(next, one.deadline());
    }
    if (stopping_) next = std::min(next, farewell_);
    const auto left = std::chrono::ceil<std::chrono::milliseconds>(next - Clock::now()).count();
    return static_cast<int>(std::max<std::int64_t>(left, 0));
  }

  std::size_t room() const {
    std::size_t taken = 0;
    for (const Connection& one : connections_) taken += one.body_bytes();
    return kMostBodies - std::min(taken, kMostBodies);
  }

  void take_in(Clock::time_point now) {
    // Not without end: those who are here already come first again after a while.
    for (int i = 0; i < 64; ++i) {
      std::optional<Accepted> accepted = accept_from(listener_);
      if (!accepted) {
        // No descriptor is left: someone must go, or the listener stays ready and is never served.
        if (errno == EMFILE || errno == ENFILE) make_room();
        return;
      }
      if (connections_.size() >= kMostConnections) make_room();
      connections_.emplace_back(std::move(accepted->socket), std::move(accepted->address), site_, patience_,
                                now);
    }
  }

  // Who has asked for nothing yet goes first, the one who has been at it longest; then whoever has been
  // longest in the same step. So a crowd that never asks cannot keep out one who does.
  void make_room() {
    const auto earlier = [](const Connection& a, const Connection& b) {
      const auto asks = [](const Connection& one) {
        return one.phase() == Phase::body || one.phase() == Phase::answer;
      };
      return asks(a) != asks(b) ? asks(b) : a.since() < b.since();
    };
    const auto victim = std::ranges::min_element(connections_, earlier);
    if (victim != connections_.end()) connections_.erase(victim);
  }

  // A request that is whole has its answer by now; what is left to do is to send it.
  void begin_to_stop(Clock::time_point now) {
    stopping_ = true;
    farewell_ = now + kFarewell;
    connections_.remove_if([](const Connection& one) { return one.phase() != Phase::answer; });
  }

  const Descriptor& stop_;
  const Descriptor& listener_;
  const Site& site_;
  Patience patience_;
  std::list<Connection> connections_;
  bool stopping_ = false;
  Clock::time_point farewell_;
};

}  // namespace

void serve_until(const Descriptor& stop, const Descriptor& listener, const Site& site,
                 std::chrono::seconds patience) {
  Loop(stop, listener, site, patience).run();
}

}  // namespace lapwright::serve
