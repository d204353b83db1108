#include "serve/reply.h"

namespace lapwright::serve {

namespace {

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

std::vector<Field> fields_of(const Reply& reply) {
  std::vector<Field> fields = {
      {"Content-Security-Policy", std::string(kPolicy)},
      {"X-Content-Type-Options", "nosniff"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Accept-Ranges", "none"},
  };
  if (reply.status != 304) fields.push_back({"Content-Type", reply.type});
  fields.insert(fields.end(), reply.fields.begin(), reply.fields.end());
  return fields;
}

}  // namespace lapwright::serve
