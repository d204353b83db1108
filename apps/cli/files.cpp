#include "files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <system_error>

namespace lapwright::cli {

namespace {

std::string because(const std::string& path, const char* what) {
  return path + ": " + what + ": " + std::strerror(errno);
}

// Closes on every way out.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int get() const { return fd_; }
  bool close_now() {
    const int result = ::close(fd_);
    fd_ = -1;
    return result == 0;
  }

 private:
  int fd_;
};

}  // namespace

Read read_file(const std::string& path) {
  constexpr off_t kMost = off_t{64} << 20;
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.get() < 0) return {std::nullopt, because(path, "cannot be read")};
  struct stat info{};
  if (::fstat(file.get(), &info) != 0) return {std::nullopt, because(path, "cannot be read")};
  if (S_ISDIR(info.st_mode)) return {std::nullopt, path + ": is a folder; a job file is wanted"};
  if (info.st_size > kMost) return {std::nullopt, path + ": is over 64 MB; a job file is wanted"};
  std::string bytes;
  char part[65536];
  while (true) {
    const ssize_t n = ::read(file.get(), part, sizeof part);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return {std::nullopt, because(path, "cannot be read")};
    if (n == 0) return {std::move(bytes), {}};
    bytes.append(part, static_cast<std::size_t>(n));
    if (static_cast<off_t>(bytes.size()) > kMost) {
      return {std::nullopt, path + ": is over 64 MB; a job file is wanted"};
    }
  }
}

std::string write_file(const std::string& path, std::string_view bytes) {
  const std::string half = path + ".part";
  {
    Descriptor file(::open(half.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644));
    if (file.get() < 0) return because(path, "cannot be written");
    std::size_t done = 0;
    while (done < bytes.size()) {
      const ssize_t n = ::write(file.get(), bytes.data() + done, bytes.size() - done);
      if (n < 0 && errno == EINTR) continue;
      if (n < 0) {
        const std::string problem = because(path, "cannot be written");
        ::unlink(half.c_str());
        return problem;
      }
      done += static_cast<std::size_t>(n);
    }
    if (::fsync(file.get()) != 0 && errno != EINVAL) {  // some file systems have no fsync
      const std::string problem = because(path, "cannot be written");
      ::unlink(half.c_str());
      return problem;
    }
    if (!file.close_now()) {
      const std::string problem = because(path, "cannot be written");
      ::unlink(half.c_str());
      return problem;
    }
  }
  if (std::rename(half.c_str(), path.c_str()) != 0) {
    const std::string problem = because(path, "cannot be written");
    ::unlink(half.c_str());
    return problem;
  }
  return {};
}

std::string make_folder(const std::string& path) {
  std::error_code error;
  std::filesystem::create_directories(path, error);
  if (error) return path + ": cannot be made: " + error.message();
  if (!std::filesystem::is_directory(path, error)) return path + ": is not a folder";
  return {};
}

}  // namespace lapwright::cli
