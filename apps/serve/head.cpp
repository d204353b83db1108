#include "serve/head.h"

#include <algorithm>
#include <array>

#include "serve/reply.h"

namespace lapwright::serve {

namespace {

std::optional<Reply> fault_in_target(const Head& head) {
  if (head.path.size() + head.query.size() >= kMostTarget) return plain(414, "The address is too long.");
  if (!head.path.starts_with('/')) return plain(400, "The address must begin with a slash.");
  const auto is_plain = [](char c) { return c > 0x20 && c < 0x7F && c != '#'; };
  if (std::ranges::all_of(head.path, is_plain) && std::ranges::all_of(head.query, is_plain)) return {};
  return plain(400, "The address holds a character that none may hold.");
}

// These decide something: were they there twice, two readers could believe different ones.
bool has_repeats(const Head& head) {
  constexpr std::array<std::string_view, 12> kOnce = {
      "host",   "content-length", "content-type", "transfer-encoding", "connection",     "expect",
      "origin", "cookie",         "if-match",     "if-none-match",     "sec-fetch-site", "sec-fetch-mode"};
  return std::ranges::any_of(kOnce, [&head](std::string_view name) {
    return std::ranges::count(head.fields, name, &Field::name) > 1;
  });
}

}  // namespace

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

const std::string* Head::find(std::string_view name) const {
  const auto found = std::ranges::find(fields, name, &Field::name);
  return found == fields.end() ? nullptr : &found->value;
}

std::optional<Reply> fault_in(const Head& head) {
  if (auto fault = fault_in_target(head)) return fault;
  if (head.fields.size() > kMostFields) return plain(431, "The request has too many header fields.");
  if (has_repeats(head)) return plain(400, "A header field is there twice.");
  if (head.find("host") == nullptr) return plain(400, "The request does not say for which host it is.");
  if (head.find("transfer-encoding") != nullptr) {
    return plain(411, "A request must say its length: no chunks are read here.");
  }
  const std::string* length = head.find("content-length");
  if (length != nullptr && *length != std::to_string(head.length)) {
    return plain(400, "The length is not one number.");
  }
  const std::string* wish = head.find("expect");
  if (wish != nullptr && lower(*wish) != "100-continue")
    return plain(417, "That expectation is not met here.");
  return {};
}

}  // namespace lapwright::serve
