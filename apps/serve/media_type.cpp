#include <array>
#include <utility>

#include "serve/page.h"

namespace lapwright::serve {

std::string_view media_type(std::string_view name) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 17> kTypes = {{
      {".html", "text/html; charset=utf-8"},
      {".js", "text/javascript; charset=utf-8"},
      {".mjs", "text/javascript; charset=utf-8"},
      {".css", "text/css; charset=utf-8"},
      {".wasm", "application/wasm"},
      {".webmanifest", "application/manifest+json"},
      {".json", "application/json"},
      {".map", "application/json"},
      {".svg", "image/svg+xml"},
      {".png", "image/png"},
      {".ico", "image/x-icon"},
      {".webp", "image/webp"},
      {".jpg", "image/jpeg"},
      {".woff2", "font/woff2"},
      {".pdf", "application/pdf"},
      {".txt", "text/plain; charset=utf-8"},
      {".md", "text/plain; charset=utf-8"},
  }};
  for (const auto& [ending, type] : kTypes) {
    if (name.ends_with(ending)) return type;
  }
  return "application/octet-stream";
}

}  // namespace lapwright::serve
