#include "serve/connection.h"

#include <sys/socket.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <utility>

namespace lapwright::serve {

namespace {

constexpr std::chrono::seconds kParting{2};

}  // namespace

Connection::Connection(Descriptor socket, std::string address, const Site& site, Patience patience,
                       Clock::time_point now)
    : socket_(std::move(socket)),
      address_(std::move(address)),
      site_(site),
      patience_(patience),
      since_(now),
      moved_(now) {}

void Connection::enter(Phase phase, Clock::time_point now) {
  phase_ = phase;
  since_ = now;
  moved_ = now;
}

Clock::time_point Connection::deadline() const {
  switch (phase_) {
    case Phase::idle:
      return since_ + patience_.idle();
    case Phase::head:
      return since_ + patience_.head;
    case Phase::body:
      return since_ + patience_.body();
    case Phase::answer:
      return std::min(moved_ + patience_.stalled(), since_ + patience_.answer());
    case Phase::parting:
      return since_ + kParting;
    case Phase::over:
      break;
  }
  return since_;
}

void Connection::expire(Clock::time_point now) {
  const bool asked = phase_ == Phase::head || phase_ == Phase::body;
  if (!asked) return enter(Phase::over, now);
  Reply reply = plain(408, "The request took too long to arrive.");
  reply.close = true;
  reply_with(reply, now);
}

void Connection::proceed(Clock::time_point now, std::size_t room) {
  if (phase_ == Phase::answer) return send_answer(now);
  if (phase_ == Phase::parting) return part(now);
  if (!has_more_to_read() && !receive()) return enter(Phase::over, now);
  read_request(now, room);
}

// One helping; false when the other side has ended.
bool Connection::receive() {
  std::array<char, 65536> part;
  const ssize_t n = ::recv(socket_.get(), part.data(), part.size(), 0);
  if (n > 0) in_.append(part.data(), static_cast<std::size_t>(n));
  return n > 0 || (n < 0 && (errno == EAGAIN || errno == EINTR));
}

void Connection::part(Clock::time_point now) {
  std::array<char, 65536> part;
  const ssize_t n = ::recv(socket_.get(), part.data(), part.size(), 0);
  const bool open = n > 0 || (n < 0 && (errno == EAGAIN || errno == EINTR));
  if (!open) enter(Phase::over, now);
}

void Connection::read_request(Clock::time_point now, std::size_t room) {
  if (in_.empty()) return;
  if (phase_ == Phase::idle) enter(Phase::head, now);
  if (phase_ == Phase::head) {
    HeadRead read = read_head(in_);
    if (read.state == HeadRead::State::more) return;
    if (read.state == HeadRead::State::bad) {
      Reply reply = plain(read.status, read.text);
      reply.close = true;
      return reply_with(reply, now);
    }
    head_ = std::move(read.head);
    in_.erase(0, read.size);
    if (std::optional<Reply> stopped = site_.stop(head_, address_)) {
      stopped->close = head_.length > 0;  // its body is not read, so what follows cannot be found
      return reply_with(*stopped, now);
    }
    if (head_.length > room) {
      Reply reply = plain(503, "Too much is being sent at the same time: try again in a moment.");
      reply.close = true;
      return reply_with(reply, now);
    }
    enter(Phase::body, now);
    if (head_.awaits_go_ahead && in_.size() < head_.length) {
      constexpr std::string_view kGo = "HTTP/1.1 100 Continue\r\n\r\n";
      // Nothing else is on its way out, so there is room for it; if not, the client sends without it.
      (void)::send(socket_.get(), kGo.data(), kGo.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
    }
  }
  if (in_.size() < head_.length) return;
  const auto length = static_cast<std::size_t>(head_.length);
  const Reply reply = site_.answer(head_, std::string_view(in_).substr(0, length));
  in_.erase(0, length);
  reply_with(reply, now);
}

void Connection::reply_with(const Reply& reply, Clock::time_point now) {
  keep_ = !reply.close && head_.keep;
  out_ = head_of(reply, keep_);
  shared_ = {};
  if (head_.method != "HEAD" && reply.status != 304) {
    out_ += reply.body;
    shared_ = reply.shared;
  }
  head_ = {};
  sent_ = 0;
  enter(Phase::answer, now);
  send_answer(now);
}

void Connection::send_answer(Clock::time_point now) {
  while (sent_ < out_.size() + shared_.size()) {
    const std::string_view rest =
        sent_ < out_.size() ? std::string_view(out_).substr(sent_) : shared_.substr(sent_ - out_.size());
    const ssize_t n = ::send(socket_.get(), rest.data(), rest.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0 && errno == EAGAIN) return;
    if (n < 0) return enter(Phase::over, now);
    sent_ += static_cast<std::size_t>(n);
    moved_ = now;
  }
  out_ = {};
  shared_ = {};
  if (keep_) return enter(Phase::idle, now);
  ::shutdown(socket_.get(), SHUT_WR);
  in_ = {};
  enter(Phase::parting, now);
}

}  // namespace lapwright::serve
