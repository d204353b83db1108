#include "serve/page.h"

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <memory>
#include <optional>

#include "serve/descriptor.h"
#include "serve/file_bytes.h"
#include "serve/sha256.h"

namespace lapwright::serve {

namespace {

constexpr std::size_t kMostFiles = 2'000;
constexpr std::size_t kMostBytes = std::size_t{128} << 20U;
constexpr int kMostDepth = 8;

// Such names stand in an address as they are: nothing needs to be decoded, so nothing can be decoded twice.
bool is_plain_name(std::string_view name) {
  return !name.starts_with('.') && std::ranges::all_of(name, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' ||
           c == '-' || c == '_';
  });
}

std::vector<std::string> names_in(int folder) {
  std::vector<std::string> names;
  // The stream takes a descriptor of its own: closing it must not close the caller's.
  Descriptor own(::openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!own) return names;
  const std::unique_ptr<DIR, int (*)(DIR*)> stream(::fdopendir(own.get()), &::closedir);
  if (!stream) return names;
  own.release();
  while (const dirent* entry = ::readdir(stream.get())) {
    const std::string_view name = entry->d_name;
    if (name != "." && name != "..") names.emplace_back(name);
  }
  std::ranges::sort(names);
  return names;
}

// Whether a list of entity tags ("*", or W/ and quotes, with commas) holds this one.
bool names_tag(std::string_view list, std::string_view tag) {
  return list == "*" || list.find(tag) != std::string_view::npos;
}

}  // namespace

bool Page::fail(std::string problem) {
  problem_ = std::move(problem);
  return false;
}

bool Page::add(int folder, const std::string& name, const std::string& path) {
  if (files_.size() == kMostFiles) return fail("is not a page: it holds over 2000 files");
  std::optional<FileBytes> file = read_plain_file(folder, name, kMostBytes - bytes_);
  if (!file) {
    if (errno == EFBIG) return fail("is not a page: it holds over 128 MB");
    if (errno == ELOOP || errno == EINVAL) {
      left_out_.push_back(path);
      return true;
    }
    return fail("cannot be read: " + path + ": " + std::strerror(errno));
  }
  bytes_ += file->bytes.size();
  File kept;
  kept.tag = '"' + revision_of(file->bytes) + '"';
  kept.type = media_type(name);
  // The page as one file carries its script within it, which does not run from here; it is for a memory
  // stick.
  kept.to_keep = name.ends_with(".html") && path != "/index.html";
  kept.bytes = std::move(file->bytes);
  files_.emplace(path, std::move(kept));
  return true;
}

bool Page::read_folder(int folder, const std::string& path, int depth) {
  if (depth > kMostDepth) return fail("is not a page: its folders are too deep");
  for (const std::string& name : names_in(folder)) {
    const std::string below = path + name;
    if (!is_plain_name(name)) {
      left_out_.push_back(below);
      continue;
    }
    const Descriptor inner(::openat(folder, name.c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC));
    const bool sound = inner ? read_folder(inner.get(), below + "/", depth + 1) : add(folder, name, below);
    if (!sound) return false;
  }
  return true;
}

Page Page::read(const std::string& folder) {
  Page page;
  const Descriptor top(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!top) {
    page.problem_ = folder + ": there is no page: " + std::strerror(errno);
    return page;
  }
  // First of all, lest a folder that was named by mistake is read with all that is below it.
  struct stat info{};
  if (::fstatat(top.get(), "index.html", &info, AT_SYMLINK_NOFOLLOW) != 0 || !S_ISREG(info.st_mode)) {
    page.problem_ = folder + ": there is no page: it holds no index.html";
  } else if (!page.read_folder(top.get(), "/", 0)) {
    page.problem_ = folder + ": " + page.problem_;
  }
  return page;
}

Reply Page::answer(const Head& head) const {
  const auto found = files_.find(head.path == "/" ? "/index.html" : head.path);
  if (found == files_.end()) return plain(404, "There is nothing by that name here.");
  const File& file = found->second;
  Reply reply;
  reply.type = file.type;
  // A browser asks again each time, which costs it little here: a new version is never missed because an old
  // file lay in the browser's own store. What must work with no server is in the service worker's.
  reply.fields = {{"ETag", file.tag}, {"Cache-Control", "no-cache"}};
  if (file.to_keep) reply.fields.push_back({"Content-Disposition", "attachment"});
  const std::string* known = head.find("if-none-match");
  if (known != nullptr && names_tag(*known, file.tag)) {
    reply.status = 304;
  } else {
    reply.shared = file.bytes;
  }
  return reply;
}

}  // namespace lapwright::serve
