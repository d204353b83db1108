#include "serve/head.h"

#include <algorithm>
#include <array>
#include <optional>

namespace lapwright::serve {

namespace {

HeadRead bad(int status, std::string_view text) {
  HeadRead read;
  read.state = HeadRead::State::bad;
  read.status = status;
  read.text = text;
  return read;
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// RFC 9110's token: what names of methods and fields are made of.
bool is_token(std::string_view text) {
  static constexpr std::string_view kOthers = "!#$%&'*+-.^_`|~";
  return !text.empty() && std::ranges::all_of(text, [](char c) {
    return is_letter(c) || is_digit(c) || kOthers.find(c) != std::string_view::npos;
  });
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

// Every line must end in CR LF, and neither may stand alone.
bool has_stray_line_end(std::string_view bytes) {
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (bytes[i] == '\n' && (i == 0 || bytes[i - 1] != '\r')) return true;
    if (bytes[i] == '\r' && i + 1 < bytes.size() && bytes[i + 1] != '\n') return true;
  }
  return false;
}

std::optional<HeadRead> fault_in_target(std::string_view target) {
  if (target.size() > kMostTarget) return bad(414, "The address is too long.");
  if (!target.starts_with('/')) return bad(400, "The address must begin with a slash.");
  const bool plain = std::ranges::all_of(target, [](char c) { return c > 0x20 && c < 0x7F && c != '#'; });
  if (!plain) return bad(400, "The address holds a character that none may hold.");
  return std::nullopt;
}

// "GET /path?query HTTP/1.1" into the head, or what is wrong with it.
std::optional<HeadRead> read_first_line(std::string_view line, Head& head) {
  const std::size_t one = line.find(' ');
  const std::size_t two = one == std::string_view::npos ? one : line.find(' ', one + 1);
  if (two == std::string_view::npos) return bad(400, "The first line is not that of a request.");
  const std::string_view method = line.substr(0, one);
  const std::string_view target = line.substr(one + 1, two - one - 1);
  const std::string_view version = line.substr(two + 1);
  if (!is_token(method)) return bad(400, "The first line is not that of a request.");
  if (version != "HTTP/1.1" && version != "HTTP/1.0") return bad(505, "Only HTTP/1.1 is spoken here.");
  if (auto fault = fault_in_target(target)) return fault;
  head.method = method;
  head.keep = version == "HTTP/1.1";
  const std::size_t mark = target.find('?');
  head.path = target.substr(0, mark);
  if (mark != std::string_view::npos) head.query = target.substr(mark + 1);
  return std::nullopt;
}

std::optional<HeadRead> read_field(std::string_view line, Head& head) {
  if (head.fields.size() == kMostFields) return bad(431, "The request has too many header fields.");
  const std::size_t colon = line.find(':');
  if (colon == std::string_view::npos || !is_token(line.substr(0, colon))) {
    return bad(400, "A header field cannot be read.");
  }
  const std::string_view value = trimmed(line.substr(colon + 1));
  const bool clean = std::ranges::all_of(value, [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte >= 0x20U && byte != 0x7FU) || c == '\t';
  });
  if (!clean) return bad(400, "A header field holds a control character.");
  head.fields.push_back({lower(line.substr(0, colon)), std::string(value)});
  return std::nullopt;
}

// These decide something: were they there twice, two readers could believe different ones.
std::optional<HeadRead> fault_in_repeats(const Head& head) {
  constexpr std::array<std::string_view, 12> kOnce = {
      "host",   "content-length", "content-type", "transfer-encoding", "connection",     "expect",
      "origin", "cookie",         "if-match",     "if-none-match",     "sec-fetch-site", "sec-fetch-mode"};
  for (const std::string_view name : kOnce) {
    if (std::ranges::count(head.fields, name, &Field::name) > 1) {
      return bad(400, "A header field is there twice.");
    }
  }
  return std::nullopt;
}

std::optional<HeadRead> read_length(Head& head) {
  if (head.find("transfer-encoding") != nullptr) {
    if (head.find("content-length") != nullptr) return bad(400, "The request has two lengths.");
    return bad(411, "A request must say its length: no chunks are read here.");
  }
  const std::string* length = head.find("content-length");
  if (length == nullptr) return std::nullopt;
  if (length->empty() || length->size() > 15 || !std::ranges::all_of(*length, is_digit)) {
    return bad(400, "The length is not a number.");
  }
  head.has_length = true;
  for (const char digit : *length) head.length = head.length * 10 + static_cast<std::uint64_t>(digit - '0');
  return std::nullopt;
}

std::optional<HeadRead> read_meanings(Head& head) {
  if (auto fault = fault_in_repeats(head)) return fault;
  if (head.find("host") == nullptr) return bad(400, "The request does not say for which host it is.");
  if (auto fault = read_length(head)) return fault;
  if (const std::string* wish = head.find("connection"); wish != nullptr) {
    if (lower(*wish).find("close") != std::string::npos) head.keep = false;
  }
  if (const std::string* wish = head.find("expect"); wish != nullptr) {
    if (lower(*wish) != "100-continue") return bad(417, "That expectation is not met here.");
    head.awaits_go_ahead = true;
  }
  return std::nullopt;
}

}  // namespace

const std::string* Head::find(std::string_view name) const {
  const auto found = std::ranges::find(fields, name, &Field::name);
  return found == fields.end() ? nullptr : &found->value;
}

HeadRead read_head(std::string_view bytes) {
  // Something else than HTTP (a TLS greeting, say) is told at its first byte, not after a wait.
  if (!bytes.empty() && !is_letter(bytes.front())) return bad(400, "This is not a request in HTTP.");
  const std::size_t end = bytes.find("\r\n\r\n");
  const std::string_view part = bytes.substr(0, end == std::string_view::npos ? end : end + 4);
  if (has_stray_line_end(part)) return bad(400, "A line does not end in CR LF.");
  if (part.size() > kMostHead) return bad(431, "The head of the request is too long.");
  if (end == std::string_view::npos) return {};

  HeadRead read;
  read.size = part.size();
  std::string_view rest =
      part.substr(0, part.size() - 2);  // every line with its CR LF, without the empty one
  bool first = true;
  while (!rest.empty()) {
    const std::size_t stop = rest.find("\r\n");
    const std::string_view line = rest.substr(0, stop);
    rest.remove_prefix(stop + 2);
    auto fault = first ? read_first_line(line, read.head) : read_field(line, read.head);
    if (fault) return *std::move(fault);
    first = false;
  }
  if (auto fault = read_meanings(read.head)) return *std::move(fault);
  read.state = HeadRead::State::whole;
  return read;
}

}  // namespace lapwright::serve
