// Files for the command line: read whole, written whole or not at all.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace lapwright::cli {

struct Read {
  std::optional<std::string> bytes;
  std::string problem;  // one line, when there are no bytes
};

// Refuses folders, and files of more than 64 MB.
Read read_file(const std::string& path);

// Writes beside the target and renames over it, so that a reader (or a power cut) sees the old file or the
// new one. Returns what went wrong, in one line, or an empty string.
std::string write_file(const std::string& path, std::string_view bytes);

// Makes the folder and those above it. Returns what went wrong, or an empty string.
std::string make_folder(const std::string& path);

}  // namespace lapwright::cli
