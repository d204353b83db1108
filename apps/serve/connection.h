// One connection: what came in, what is to go out, and until when. It never waits: the loop calls it when its
// socket is ready, and ends it at its deadline. So a client that is slow, or that sends one byte a minute,
// holds up nobody.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "serve/descriptor.h"
#include "serve/head.h"
#include "serve/reply.h"
#include "serve/site.h"

namespace lapwright::serve {

using Clock = std::chrono::steady_clock;

// How long a client may take. Whole steps, not single bytes: a byte now and then wins no time.
struct Patience {
  explicit Patience(std::chrono::seconds for_a_head) : head(for_a_head) {}
  std::chrono::seconds head;
  std::chrono::seconds body() const { return head * 6; }
  std::chrono::seconds idle() const { return head * 3; }     // between two requests
  std::chrono::seconds stalled() const { return head * 2; }  // an answer that nobody takes
  std::chrono::seconds answer() const { return head * 60; }
};

class Connection {
 public:
  enum class Phase : std::uint8_t {
    idle,     // nothing of a request is there yet
    head,     // a part of its head is
    body,     // its head is, a part of its body is missing
    answer,   // an answer is going out; nothing is read meanwhile
    parting,  // all is said; what still comes is thrown away, so that the answer is not lost on the client's
              // side
    over,
  };

  Connection(Descriptor socket, std::string address, const Site& site, Patience patience,
             Clock::time_point now);

  int socket() const { return socket_.get(); }
  Phase phase() const { return phase_; }
  Clock::time_point since() const { return since_; }  // when this phase began
  Clock::time_point deadline() const;
  bool wants_to_write() const { return phase_ == Phase::answer; }
  bool has_more_to_read() const { return phase_ == Phase::idle && !in_.empty(); }  // without its socket
  std::size_t body_bytes() const { return phase_ == Phase::body ? head_.length : 0; }

  // The socket can be read or written, or has_more_to_read(). `room`: bytes of body that may still be taken
  // in.
  void proceed(Clock::time_point now, std::size_t room);
  // The deadline has passed.
  void expire(Clock::time_point now);

 private:
  void enter(Phase phase, Clock::time_point now);
  bool receive();
  void read_request(Clock::time_point now, std::size_t room);
  void reply_with(const Reply& reply, Clock::time_point now);
  void send_answer(Clock::time_point now);
  void part(Clock::time_point now);

  Descriptor socket_;
  std::string address_;  // of the server's end
  const Site& site_;
  Patience patience_;
  Phase phase_ = Phase::idle;
  Clock::time_point since_;
  Clock::time_point moved_;  // when bytes of the answer were last taken

  std::string in_;
  Head head_;
  std::string out_;  // head of the answer, and its body where that is not shared
  std::string_view shared_;
  std::size_t sent_ = 0;
  bool keep_ = false;
};

}  // namespace lapwright::serve
