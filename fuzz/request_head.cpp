// Whatever arrives at the server's socket: the answer does not depend on how it was cut into packets or on
// what follows it, and what passes holds nothing that another reader could take for a second line or a second
// request.
#include <serve/head.h>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

namespace {

using lapwright::serve::Head;
using lapwright::serve::HeadRead;
using lapwright::serve::read_head;

void require(bool holds) {
  if (!holds) std::abort();
}

bool same(const Head& a, const Head& b) {
  const auto equal = [](const auto& x, const auto& y) { return x.name == y.name && x.value == y.value; };
  return a.method == b.method && a.path == b.path && a.query == b.query && a.length == b.length &&
         a.keep == b.keep && std::ranges::equal(a.fields, b.fields, equal);
}

bool has_control(std::string_view text) {
  return std::ranges::any_of(text, [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte < 0x20U && c != '\t') || byte == 0x7FU;
  });
}

void judge_whole(std::string_view bytes, const HeadRead& read) {
  require(read.size >= 4 && read.size <= bytes.size() && read.size <= lapwright::serve::kMostHead);
  require(bytes.substr(0, read.size).find("\r\n\r\n") == read.size - 4);
  const Head& head = read.head;
  require(head.path.starts_with('/') && head.path.find_first_of(" ?#") == std::string::npos);
  require(!head.method.empty() && head.method.find(' ') == std::string::npos);
  require(!has_control(head.method + head.path + head.query));
  require(head.fields.size() <= lapwright::serve::kMostFields);
  for (const auto& field : head.fields) require(!has_control(field.name + field.value));
  require(head.find("host") != nullptr && head.find("transfer-encoding") == nullptr);
  // What follows changes nothing, and the last byte is needed.
  const HeadRead alone = read_head(bytes.substr(0, read.size));
  const HeadRead more = read_head(std::string(bytes.substr(0, read.size)) + "GET / HTTP/1.1\r\n\r\n");
  require(alone.state == HeadRead::State::whole && same(alone.head, head));
  require(more.state == HeadRead::State::whole && more.size == read.size && same(more.head, head));
  require(read_head(bytes.substr(0, read.size - 1)).state == HeadRead::State::more);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const HeadRead read = read_head(bytes);
  if (read.state == HeadRead::State::whole) judge_whole(bytes, read);
  if (read.state == HeadRead::State::bad) require(read.status >= 400 && !read.text.empty());
  if (read.state == HeadRead::State::more) {
    // Waiting is only for what may still become a request: never for more than a head may have.
    require(size <= lapwright::serve::kMostHead);
    // And no part of it was refused before.
    for (const std::size_t cut : {size / 4, size / 2, size - size / 4}) {
      require(read_head(bytes.substr(0, cut)).state == HeadRead::State::more);
    }
  }
  return 0;
}
