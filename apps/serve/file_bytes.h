// One plain file of an open folder, whole. Links are never followed, and a pipe or a device never waited for.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

namespace lapwright::serve {

struct FileBytes {
  std::string bytes;
  std::int64_t changed = 0;  // milliseconds since 1970
};

// Nothing when there is no such file, it is a link, a folder, or anything but a plain file, or it has more
// than `most` bytes; errno then says why (ELOOP, EFBIG, ...).
std::optional<FileBytes> read_plain_file(int folder, const std::string& name, std::size_t most);

}  // namespace lapwright::serve
