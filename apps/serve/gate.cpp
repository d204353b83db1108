#include "serve/gate.h"

#include <sys/random.h>

#include <algorithm>
#include <array>

namespace lapwright::serve {

namespace {

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

bool is_own_host(const Gate& gate, std::string_view host, std::string_view address) {
  const std::string port = ":" + std::to_string(gate.port);
  std::string name = lower(host);
  if (name.ends_with(port)) {
    name.resize(name.size() - port.size());
  } else if (gate.port != 80) {
    return false;
  }
  const bool six = address.find(':') != std::string_view::npos;
  if (name == (six ? "[" + std::string(address) + "]" : std::string(address))) return true;
  if (is_loopback(address)) return name == "localhost";
  return std::ranges::find(gate.names, name) != gate.names.end();
}

// A browser marks where a request comes from. Someone may follow a link from elsewhere to the page; nothing
// else may be asked for from elsewhere.
bool comes_from_here(const Head& head) {
  const std::string* origin = head.find("origin");
  if (origin != nullptr && lower(*origin) != "http://" + lower(*head.find("host"))) return false;
  const std::string* site = head.find("sec-fetch-site");
  if (site == nullptr || *site == "same-origin" || *site == "none") return true;
  const std::string* mode = head.find("sec-fetch-mode");
  const bool follows_link = mode != nullptr && *mode == "navigate" && head.method == "GET";
  return follows_link && !head.path.starts_with("/api/");
}

// Takes as long wherever the first difference is.
bool equal(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  unsigned difference = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    difference |= static_cast<unsigned>(static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(b[i]));
  }
  return difference == 0;
}

// Cookies do not know ports: the name keeps two servers of one machine apart.
std::string cookie_name(const Gate& gate) {
  return "lapwright-" + std::to_string(gate.port);
}

bool has_cookie(const Gate& gate, const Head& head) {
  const std::string* line = head.find("cookie");
  if (line == nullptr) return false;
  const std::string wanted = cookie_name(gate) + "=";
  std::string_view rest = *line;
  while (!rest.empty()) {
    const std::size_t stop = std::min(rest.find(';'), rest.size());
    std::string_view pair = rest.substr(0, stop);
    rest.remove_prefix(std::min(stop + 1, rest.size()));
    while (pair.starts_with(' ')) pair.remove_prefix(1);
    if (pair.starts_with(wanted) && equal(pair.substr(wanted.size()), gate.token)) return true;
  }
  return false;
}

std::optional<Reply> stop_without_token(const Gate& gate, const Head& head) {
  constexpr std::string_view kKey = "token=";
  if (head.query.starts_with(kKey) && head.method == "GET" && head.path == "/") {
    if (!equal(std::string_view(head.query).substr(kKey.size()), gate.token)) {
      return plain(401, "That link is not the one that `lapwright serve` printed when it was last started.");
    }
    Reply reply = plain(303, "This way, without the token in the address.");
    reply.fields = {
        {"Location", "/"},
        {"Cache-Control", "no-store"},
        {"Set-Cookie", cookie_name(gate) + "=" + gate.token + "; Path=/; HttpOnly; SameSite=Lax"},
    };
    return reply;
  }
  if (has_cookie(gate, head)) return std::nullopt;
  return plain(401, "Open the link that `lapwright serve` printed when it was last started.");
}

}  // namespace

bool is_loopback(std::string_view address) {
  return address.starts_with("127.") || address == "::1";
}

std::optional<Reply> stop_at(const Gate& gate, const Head& head, std::string_view address) {
  if (!is_own_host(gate, *head.find("host"), address)) {
    return plain(421, "This server does not go by that name: use the address that it printed.");
  }
  if (!comes_from_here(head)) return plain(403, "Another site may not ask for this.");
  if (gate.token.empty()) return std::nullopt;
  return stop_without_token(gate, head);
}

std::string make_token() {
  std::array<unsigned char, 16> bytes{};
  if (::getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size())) return {};
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string token;
  for (const unsigned char byte : bytes) {
    token += kDigits[byte >> 4U];
    token += kDigits[byte & 15U];
  }
  return token;
}

}  // namespace lapwright::serve
