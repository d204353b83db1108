#include "serve/jobs.h"

#include <dirent.h>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>
#include <system_error>

#include "serve/file_bytes.h"
#include "serve/sha256.h"

namespace lapwright::serve {

namespace {

constexpr std::string_view kEnding = ".json";
// No id can be this one: a job that is being written never looks like a job.
constexpr const char* kHalf = ".being-written.part";

// Held while a job is compared and replaced. File systems without locks still have this program's own order:
// it does one thing after the other.
class Lock {
 public:
  explicit Lock(int folder) : folder_(folder) {
    while (::flock(folder_, LOCK_EX) != 0 && errno == EINTR) {
    }
  }
  ~Lock() { ::flock(folder_, LOCK_UN); }
  Lock(const Lock&) = delete;
  Lock& operator=(const Lock&) = delete;

 private:
  int folder_;
};

bool is_id_char(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

std::vector<std::string> names_in(int folder, bool (*is_id)(std::string_view)) {
  std::vector<std::string> ids;
  Descriptor own(::openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!own) return ids;
  const std::unique_ptr<DIR, int (*)(DIR*)> stream(::fdopendir(own.get()), &::closedir);
  if (!stream) return ids;
  own.release();
  while (const dirent* entry = ::readdir(stream.get())) {
    std::string_view name = entry->d_name;
    if (!name.ends_with(kEnding)) continue;
    name.remove_suffix(kEnding.size());
    if (is_id(name)) ids.emplace_back(name);
    if (ids.size() == kMostJobs) break;
  }
  std::ranges::sort(ids);
  return ids;
}

std::optional<Job> read_job(int folder, const std::string& id) {
  std::optional<FileBytes> file = read_plain_file(folder, id + std::string(kEnding), kMostJobBytes);
  if (!file) return std::nullopt;
  Job job;
  job.id = id;
  job.revision = revision_of(file->bytes);
  job.bytes = std::move(file->bytes);
  job.changed = file->changed;
  return job;
}

// What errno says, as an outcome.
Written failure(std::string_view what) {
  Written written;
  const int error = errno;
  // EFBIG: a limit on the size of files is as good as a full disk.
  const bool full = error == ENOSPC || error == EDQUOT || error == EFBIG;
  written.kept = full ? Kept::disk_full : Kept::failed;
  written.why = std::string(what) + ": " + std::strerror(error);
  return written;
}

bool write_whole(int file, std::string_view bytes) {
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t n = ::write(file, bytes.data() + done, bytes.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return false;
    done += static_cast<std::size_t>(n);
  }
  return ::fsync(file) == 0 || errno == EINVAL;  // some file systems have no fsync
}

}  // namespace

bool is_job_id(std::string_view id) {
  return !id.empty() && id.size() <= 64 && id.front() != '-' && std::ranges::all_of(id, is_id_char);
}

bool is_bin_id(std::string_view id) {
  const std::size_t dot = id.find('.');
  if (dot == std::string_view::npos || !is_job_id(id.substr(0, dot))) return false;
  const std::string_view revision = id.substr(dot + 1);
  return revision.size() == 32 && std::ranges::all_of(revision, is_id_char);
}

Jobs Jobs::open(const std::string& folder) {
  Jobs jobs;
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  jobs.folder_ = Descriptor(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!jobs.folder_) {
    jobs.problem_ = folder + ": no jobs can be kept there: " + std::strerror(errno);
    return jobs;
  }
  // What an interrupted write left behind; under the lock, so that nobody else's is taken away.
  const Lock lock(jobs.folder_.get());
  ::unlinkat(jobs.folder_.get(), kHalf, 0);
  return jobs;
}

Descriptor Jobs::bin(bool make) const {
  if (make && ::mkdirat(folder_.get(), "bin", 0777) != 0 && errno != EEXIST) return {};
  return Descriptor(::openat(folder_.get(), "bin", O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC));
}

std::vector<std::string> Jobs::ids() const {
  return names_in(folder_.get(), &is_job_id);
}

std::vector<std::string> Jobs::ids_in_bin() const {
  const Descriptor from = bin(false);
  return from ? names_in(from.get(), &is_bin_id) : std::vector<std::string>{};
}

std::optional<Job> Jobs::read(const std::string& id) const {
  return is_job_id(id) ? read_job(folder_.get(), id) : std::nullopt;
}

std::optional<Job> Jobs::read_from_bin(const std::string& id) const {
  const Descriptor from = bin(false);
  return from && is_bin_id(id) ? read_job(from.get(), id) : std::nullopt;
}

Written Jobs::replace(const std::string& id, std::string_view bytes) const {
  ::unlinkat(folder_.get(), kHalf, 0);
  Descriptor half(::openat(folder_.get(), kHalf, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666));
  if (!half) return failure("The job cannot be written");
  const std::string name = id + std::string(kEnding);
  if (!write_whole(half.get(), bytes) || !half.close() ||
      ::renameat(folder_.get(), kHalf, folder_.get(), name.c_str()) != 0) {
    Written written = failure("The job cannot be written");
    ::unlinkat(folder_.get(), kHalf, 0);
    return written;
  }
  ::fsync(folder_.get());  // the new name, too, outlives a power cut
  Written written;
  written.now = read_job(folder_.get(), id);
  written.kept = Kept::replaced;
  if (!written.now) return failure("The job cannot be read again");
  return written;
}

Written Jobs::write(const std::string& id, std::string_view bytes, const std::string& expected) const {
  const Lock lock(folder_.get());
  Written before;
  errno = 0;
  before.now = read(id);
  // Something is there that is no job (a link, a folder, a giant): it is not ours to replace.
  if (!before.now && errno != ENOENT) {
    before.why = "Something that is no job is there by that name";
    return before;
  }
  if (before.now && before.now->bytes == bytes) {
    before.kept = Kept::same;  // the answer to the first try was lost on its way
    return before;
  }
  const bool as_expected = before.now ? before.now->revision == expected : expected.empty();
  if (!as_expected) {
    before.kept = before.now ? Kept::conflict : Kept::missing;
    return before;
  }
  Written written = replace(id, bytes);
  if (written.kept == Kept::replaced && !before.now) written.kept = Kept::made;
  return written;
}

Written Jobs::discard(const std::string& id, const std::string& expected) const {
  const Lock lock(folder_.get());
  Written written;
  written.now = read(id);
  if (!written.now || written.now->revision != expected) {
    // Already in the bin: the answer to the first try was lost on its way.
    const bool done = !written.now && read_from_bin(id + "." + expected);
    written.kept = done ? Kept::same : written.now ? Kept::conflict : Kept::missing;
    return written;
  }
  const Descriptor to = bin(true);
  if (!to) return failure("The bin cannot be opened");
  // The same id and revision twice are the same bytes: nothing is lost where one replaces the other.
  const std::string name = id + std::string(kEnding);
  const std::string kept = id + "." + expected + std::string(kEnding);
  if (::renameat(folder_.get(), name.c_str(), to.get(), kept.c_str()) != 0) {
    return failure("The job cannot be thrown away");
  }
  ::fsync(to.get());
  ::fsync(folder_.get());
  written.kept = Kept::replaced;
  return written;
}

}  // namespace lapwright::serve
