#include "serve/file_bytes.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>

#include "serve/descriptor.h"

namespace lapwright::serve {

namespace {

// When not, errno says so.
bool is_plain(const struct stat& info) {
  if (S_ISREG(info.st_mode)) return true;
  errno = S_ISLNK(info.st_mode) ? ELOOP : EINVAL;
  return false;
}

}  // namespace

std::optional<FileBytes> read_plain_file(int folder, const std::string& name, std::size_t most) {
  // Looked at before it is opened, because some devices do something when they are; and again afterwards,
  // because only then it is sure that this is what was opened.
  struct stat info{};
  if (::fstatat(folder, name.c_str(), &info, AT_SYMLINK_NOFOLLOW) != 0 || !is_plain(info))
    return std::nullopt;
  const Descriptor file(::openat(folder, name.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
  if (!file || ::fstat(file.get(), &info) != 0 || !is_plain(info)) return std::nullopt;
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
