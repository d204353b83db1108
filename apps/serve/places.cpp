#include "serve/places.h"

#include <cstdlib>
#include <filesystem>
#include <string>
#include <string_view>
#include <system_error>

namespace lapwright::serve {

namespace {

std::string from_environment(const char* name) {
  const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe): before any thread
  return value != nullptr && std::string_view(value).starts_with('/') ? value : "";
}

}  // namespace

std::string usual_jobs_folder() {
  const std::string data = from_environment("XDG_DATA_HOME");
  if (!data.empty()) return data + "/lapwright/jobs";
  const std::string home = from_environment("HOME");
  return home.empty() ? "" : home + "/.local/share/lapwright/jobs";
}

std::string usual_page_folder() {
  std::error_code error;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", error);
  if (error) return {};
  // The last: the program lies in build/PRESET of the sources.
  for (const char* place : {"page", "../share/lapwright/page", "../../web/dist"}) {
    const std::filesystem::path folder = (program.parent_path() / place).lexically_normal();
    if (std::filesystem::exists(folder / "index.html", error)) return folder.string();
  }
  return {};
}

}  // namespace lapwright::serve
