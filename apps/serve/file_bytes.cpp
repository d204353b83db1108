#include "serve/file_bytes.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>

#include "serve/descriptor.h"

namespace lapwright::serve {

std::optional<FileBytes> read_plain_file(int folder, const std::string& name, std::size_t most) {
  const Descriptor file(::openat(folder, name.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
  if (!file) return std::nullopt;
  struct stat info{};
  if (::fstat(file.get(), &info) != 0) return std::nullopt;
  if (!S_ISREG(info.st_mode)) {
    errno = S_ISDIR(info.st_mode) ? EISDIR : EINVAL;
    return std::nullopt;
  }
  FileBytes read;
  read.changed = std::int64_t{info.st_mtim.tv_sec} * 1000 + info.st_mtim.tv_nsec / 1'000'000;
  char part[65536];
  while (true) {
    const ssize_t n = ::read(file.get(), part, sizeof part);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return std::nullopt;
    if (n == 0) return read;
    read.bytes.append(part, static_cast<std::size_t>(n));
    if (read.bytes.size() > most) {
      errno = EFBIG;
      return std::nullopt;
    }
  }
}

}  // namespace lapwright::serve
