// One connection: a request after the other, each read, judged and answered. Included by server.cpp alone,
// with all of Beast.
#pragma once

#include <boost/asio/buffer.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http/message.hpp>
#include <boost/beast/http/serializer.hpp>
#include <boost/beast/http/span_body.hpp>

#include <array>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <list>
#include <memory>
#include <optional>
#include <string>

#include "serve/parsed.h"
#include "serve/reply.h"
#include "serve/site.h"

namespace lapwright::serve {

using Clock = std::chrono::steady_clock;
using Error = boost::beast::error_code;
using Tcp = boost::asio::ip::tcp;

// How long a client may take. Each is for a whole step, not for a byte: a byte now and then wins no time.
struct Patience {
  explicit Patience(std::chrono::seconds for_a_head) : head(for_a_head) {}
  std::chrono::seconds head;
  std::chrono::seconds body() const { return head * 6; }
  std::chrono::seconds idle() const { return head * 3; }     // between two requests
  std::chrono::seconds stalled() const { return head * 2; }  // an answer that nobody takes
  std::chrono::seconds answer() const { return head * 60; }
};

class Connection;

// What the connections share. It outlives them.
struct Shared {
  const Site& site;
  Patience patience;
  std::list<Connection*> open;
  std::size_t body_bytes = 0;  // of bodies that are on their way in, all together
  bool stopping = false;
};

class Connection : public std::enable_shared_from_this<Connection> {
 public:
  enum class Phase : std::uint8_t {
    asking,  // nothing of a request is there yet, or a part of its head
    body,
    answer,   // an answer is going out; nothing is read meanwhile
    parting,  // all is said; what still comes is thrown away, lest the answer is lost on the client's side
    closed,
  };

  Connection(Tcp::socket socket, Shared& shared);
  ~Connection();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  Phase phase() const { return phase_; }
  Clock::time_point since() const { return since_; }  // when this phase began

  void await_request();
  void close();

 private:
  using Body = boost::beast::http::span_body<const char>;

  void enter(Phase phase);
  void read_head();
  void judge_head();
  void read_body();
  void refuse(const Error& error);
  void refuse(Reply reply);
  void answer(Reply reply, bool keep);
  void write_answer();
  void part();
  void throw_away();
  void release_body();

  Shared& shared_;
  boost::beast::tcp_stream stream_;
  std::string address_;  // of the server's end
  Phase phase_ = Phase::asking;
  Clock::time_point since_ = Clock::now();

  boost::beast::flat_buffer in_;
  std::optional<Parser> parser_;
  Head head_;
  std::size_t body_bytes_ = 0;  // of those in `shared_`

  Reply reply_;
  std::optional<boost::beast::http::response<Body>> response_;
  std::optional<boost::beast::http::response_serializer<Body>> serializer_;
  std::array<char, 65536> thrown_away_{};
};

}  // namespace lapwright::serve
