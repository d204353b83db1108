#include "serve/reply.h"

#include <array>
#include <utility>

namespace lapwright::serve {

namespace {

std::string_view reason_of(int status) {
  constexpr std::array<std::pair<int, std::string_view>, 23> kReasons = {{
      {200, "OK"},
      {201, "Created"},
      {303, "See Other"},
      {304, "Not Modified"},
      {400, "Bad Request"},
      {401, "Unauthorized"},
      {403, "Forbidden"},
      {404, "Not Found"},
      {405, "Method Not Allowed"},
      {408, "Request Timeout"},
      {411, "Length Required"},
      {412, "Precondition Failed"},
      {413, "Content Too Large"},
      {414, "URI Too Long"},
      {415, "Unsupported Media Type"},
      {417, "Expectation Failed"},
      {421, "Misdirected Request"},
      {428, "Precondition Required"},
      {431, "Request Header Fields Too Large"},
      {500, "Internal Server Error"},
      {503, "Service Unavailable"},
      {505, "HTTP Version Not Supported"},
      {507, "Insufficient Storage"},
  }};
  for (const auto& [code, reason] : kReasons) {
    if (code == status) return reason;
  }
  return "Unknown";
}

// WebAssembly may be compiled and the engine's worker may come from a blob; apart from that, own files only.
// No inline script runs, so a job that is named like one stays text.
constexpr std::string_view kPolicy =
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self' blob:; style-src 'self'; "
    "img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; manifest-src 'self'; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'none'";

}  // namespace

Reply plain(int status, std::string_view line) {
  Reply reply;
  reply.status = status;
  reply.body = std::string(line) + "\n";
  return reply;
}

std::string head_of(const Reply& reply, bool keep) {
  std::string out = "HTTP/1.1 " + std::to_string(reply.status) + " ";
  const auto add = [&out](std::string_view name, std::string_view value) {
    out.append(name).append(": ").append(value).append("\r\n");
  };
  out.append(reason_of(reply.status)).append("\r\n");
  if (reply.status != 304) {
    add("Content-Type", reply.type);
    add("Content-Length", std::to_string(reply.bytes().size()));
  }
  add("Content-Security-Policy", kPolicy);
  add("X-Content-Type-Options", "nosniff");
  add("Referrer-Policy", "no-referrer");
  add("Cross-Origin-Resource-Policy", "same-origin");
  add("Cross-Origin-Opener-Policy", "same-origin");
  add("Accept-Ranges", "none");
  for (const Field& field : reply.fields) add(field.name, field.value);
  add("Connection", keep ? "keep-alive" : "close");
  return out + "\r\n";
}

}  // namespace lapwright::serve
