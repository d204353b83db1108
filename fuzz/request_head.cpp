// Whatever arrives at the server's socket: what Beast reads of it and we do not refuse holds nothing that
// another reader could take for a second line or a second request, and does not depend on how it was cut into
// packets.
#include <serve/head.h>
#include <serve/parsed.h>
#include <serve/reply.h>

#include <boost/asio/buffer.hpp>
#include <boost/beast/core/error.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <string>
#include <string_view>

namespace {

using lapwright::serve::Head;
using lapwright::serve::Parser;

void require(bool holds) {
  if (!holds) std::abort();
}

// As the server's socket feeds it: first `cut` bytes, then all of them; what the parser took is gone.
bool read(Parser& parser, std::string_view bytes, std::size_t cut) {
  lapwright::serve::set_limits(parser);
  boost::beast::error_code error;
  std::size_t taken = 0;
  for (const std::size_t end : {cut, bytes.size()}) {
    while (!parser.is_header_done() && taken < end) {
      const std::size_t more = parser.put(boost::asio::buffer(bytes.data() + taken, end - taken), error);
      taken += more;
      if (error && error != boost::beast::http::error::need_more) return false;
      if (error || more == 0) break;
    }
  }
  return parser.is_header_done();
}

// Nothing when it is refused, or not whole.
std::optional<Head> passed(std::string_view bytes, std::size_t cut) {
  Parser parser;
  if (!read(parser, bytes, cut)) return {};
  Head head = lapwright::serve::head_in(parser);
  if (const auto fault = lapwright::serve::fault_in(head)) {
    require(fault->status >= 400 && fault->body.ends_with('\n'));
    return {};
  }
  // The body that Beast would read is the one that was judged: no chunks, no other length.
  require(!parser.chunked() && parser.content_length().value_or(0) == head.length);
  return head;
}

bool same(const Head& a, const Head& b) {
  const auto equal = [](const auto& x, const auto& y) { return x.name == y.name && x.value == y.value; };
  return a.method == b.method && a.path == b.path && a.query == b.query && a.length == b.length &&
         std::ranges::equal(a.fields, b.fields, equal);
}

bool has_control(std::string_view text) {
  return std::ranges::any_of(text, [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte < 0x20U && c != '\t') || byte == 0x7FU;
  });
}

void judge(const Head& head) {
  require(head.path.starts_with('/') && head.path.find_first_of(" ?#") == std::string::npos);
  require(!head.method.empty() && head.method.find(' ') == std::string::npos);
  require(!has_control(head.method + head.path + head.query));
  require(head.fields.size() <= lapwright::serve::kMostFields);
  for (const auto& field : head.fields) require(!has_control(field.name + field.value));
  require(std::ranges::count(head.fields, "host", &lapwright::serve::Field::name) == 1);
  require(head.find("transfer-encoding") == nullptr && head.length <= lapwright::serve::kMostJobBytes);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const std::optional<Head> whole = passed(bytes, size);
  if (whole) judge(*whole);
  for (const std::size_t cut : {size / 4, size / 2, size - size / 4}) {
    const std::optional<Head> parts = passed(bytes, cut);
    require(parts.has_value() == whole.has_value() && (!whole || same(*whole, *parts)));
  }
  return 0;
}
