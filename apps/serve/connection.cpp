#include "serve/connection.h"

#include <boost/asio/write.hpp>
#include <boost/beast/http/read.hpp>
#include <boost/beast/http/write.hpp>

#include <algorithm>
#include <string_view>
#include <utility>

#include "serve/api.h"

namespace lapwright::serve {

namespace {

namespace asio = boost::asio;
namespace http = boost::beast::http;

constexpr std::chrono::seconds kParting{2};
constexpr std::size_t kMostBodies = 64'000'000;

// A client of the older family at a socket for both is written as one of the older family.
std::string text_of(const asio::ip::address& address) {
  if (address.is_v6() && address.to_v6().is_v4_mapped()) {
    return asio::ip::make_address_v4(asio::ip::v4_mapped, address.to_v6()).to_string();
  }
  return address.to_string();
}

}  // namespace

Connection::Connection(Tcp::socket socket, Shared& shared) : shared_(shared), stream_(std::move(socket)) {
  Error ignored;
  // Without it the last part of each answer waits for the client's word that it has the first.
  stream_.socket().set_option(Tcp::no_delay(true), ignored);
  Error error;
  const Tcp::endpoint here = stream_.socket().local_endpoint(error);
  if (!error) address_ = text_of(here.address());
  shared_.open.push_back(this);
}

Connection::~Connection() {
  release_body();
  shared_.open.remove(this);
}

void Connection::enter(Phase phase) {
  phase_ = phase;
  since_ = Clock::now();
}

void Connection::close() {
  enter(Phase::closed);
  stream_.close();
}

void Connection::release_body() {
  shared_.body_bytes -= std::exchange(body_bytes_, 0);
}

void Connection::await_request() {
  enter(Phase::asking);
  if (in_.size() > 0) return read_head();
  stream_.expires_after(shared_.patience.idle());
  stream_.async_read_some(in_.prepare(kMostHead),
                          [self = shared_from_this()](const Error& error, std::size_t size) {
                            if (error) return;
                            self->in_.commit(size);
                            self->read_head();
                          });
}

void Connection::read_head() {
  parser_.emplace();
  set_limits(*parser_);
  stream_.expires_after(shared_.patience.head);
  http::async_read_header(stream_, in_, *parser_,
                          [self = shared_from_this()](const Error& error, std::size_t /*size*/) {
                            if (error) return self->refuse(error);
                            self->judge_head();
                          });
}

void Connection::judge_head() {
  head_ = head_in(*parser_);
  if (std::optional<Reply> fault = fault_in(head_)) return refuse(*std::move(fault));
  const bool keep = parser_->keep_alive() && parser_->get().version() == 11;
  if (std::optional<Reply> stopped = shared_.site.stop(head_, address_)) {
    // With a body that is not read, what follows cannot be found.
    return answer(*std::move(stopped), keep && head_.length == 0);
  }
  if (parser_->is_done()) return answer(shared_.site.answer(head_, {}), keep);
  if (shared_.body_bytes + head_.length > kMostBodies) {
    return refuse(plain(503, "Too much is being sent at the same time: try again in a moment."));
  }
  body_bytes_ = static_cast<std::size_t>(head_.length);
  shared_.body_bytes += body_bytes_;
  enter(Phase::body);
  stream_.expires_after(shared_.patience.body());
  if (head_.find("expect") == nullptr) return read_body();
  constexpr std::string_view kGo = "HTTP/1.1 100 Continue\r\n\r\n";
  asio::async_write(stream_, asio::buffer(kGo),
                    [self = shared_from_this()](const Error& error, std::size_t /*size*/) {
                      if (!error) self->read_body();
                    });
}

void Connection::read_body() {
  http::async_read(stream_, in_, *parser_,
                   [self = shared_from_this()](const Error& error, std::size_t /*size*/) {
                     if (error) return self->refuse(error);
                     const bool keep = self->parser_->keep_alive() && self->parser_->get().version() == 11;
                     self->answer(self->shared_.site.answer(self->head_, self->parser_->get().body()), keep);
                   });
}

void Connection::refuse(const Error& error) {
  static const auto& category = Error(http::error::bad_method).category();
  if (error.category() != category) return;  // broken off, or closed at its deadline
  if (error == http::error::end_of_stream || error == http::error::partial_message) return;
  if (error == http::error::body_limit) return refuse(too_big());
  if (error == http::error::header_limit) return refuse(plain(431, "The head of the request is too long."));
  if (error == http::error::bad_version) return refuse(plain(505, "Only HTTP/1.1 is spoken here."));
  refuse(plain(400, "This is no request that can be read: " + error.message() + "."));
}

void Connection::refuse(Reply reply) {
  answer(std::move(reply), false);
}

void Connection::answer(Reply reply, bool keep) {
  release_body();
  reply_ = std::move(reply);
  response_.emplace(static_cast<http::status>(reply_.status), 11);
  for (const Field& field : fields_of(reply_)) response_->insert(field.name, field.value);
  const std::string_view bytes = reply_.bytes();
  if (reply_.status != 304) response_->content_length(bytes.size());
  if (reply_.status != 304 && head_.method != "HEAD") response_->body() = {bytes.data(), bytes.size()};
  response_->keep_alive(keep);
  head_ = {};
  parser_.reset();
  serializer_.emplace(*response_);
  enter(Phase::answer);
  write_answer();
}

// Part by part: a client that takes some of it now and then is given more time, but not without end.
void Connection::write_answer() {
  stream_.expires_at(std::min(Clock::now() + shared_.patience.stalled(), since_ + shared_.patience.answer()));
  http::async_write_some(stream_, *serializer_,
                         [self = shared_from_this()](const Error& error, std::size_t /*size*/) {
                           if (error) return;
                           if (!self->serializer_->is_done()) return self->write_answer();
                           if (!self->response_->keep_alive() || self->shared_.stopping) return self->part();
                           self->await_request();
                         });
}

void Connection::part() {
  enter(Phase::parting);
  Error ignored;
  stream_.socket().shutdown(Tcp::socket::shutdown_send, ignored);
  stream_.expires_after(kParting);
  throw_away();
}

void Connection::throw_away() {
  stream_.async_read_some(asio::buffer(thrown_away_),
                          [self = shared_from_this()](const Error& error, std::size_t /*size*/) {
                            if (!error) self->throw_away();
                          });
}

}  // namespace lapwright::serve
