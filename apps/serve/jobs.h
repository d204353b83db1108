// A folder of jobs: one file each, ID.json, and a folder `bin` in it for those thrown away.
//
// Properties:
// - A file is written whole or not at all, whatever stops the program or the machine in between.
// - Nobody overwrites what he has not seen: a write names the revision that it builds on, and is refused when
// another
//   is there by now. That holds between several servers on one folder too (an advisory lock on the folder).
// - Nothing is lost: what is thrown away lies in the bin until a person empties it.
// - Ids are safe file names by their alphabet. No link is followed.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "serve/descriptor.h"

namespace lapwright::serve {

inline constexpr std::size_t kMostJobBytes = 8'000'000;  // as much as the engine reads
inline constexpr std::size_t kMostJobs = 10'000;

struct Job {
  std::string id;
  std::string revision;  // of the bytes: equal bytes, equal revision
  std::string bytes;
  std::int64_t changed = 0;  // milliseconds since 1970
};

enum class Kept : std::uint8_t {
  same,  // already so: the same bytes are there, or in the bin
  replaced,
  made,
  conflict,  // another revision is there than the expected one, or one where none was expected
  missing,   // a revision was expected, and no job is there
  disk_full,
  failed,  // `why` says it
};

struct Written {
  Kept kept = Kept::failed;
  std::optional<Job> now;  // what is there now
  std::string why;
};

class Jobs {
 public:
  // Makes the folder where it is missing. On failure `problem` is one line.
  static Jobs open(const std::string& folder);

  const std::string& problem() const { return problem_; }

  // By id. What is not a job's file is left out. In the bin an id is "ID.REVISION".
  std::vector<std::string> ids() const;
  std::vector<std::string> ids_in_bin() const;
  std::optional<Job> read(const std::string& id) const;
  std::optional<Job> read_from_bin(const std::string& id) const;

  // `expected`: the revision that the writer saw last; empty for a job that must not exist yet.
  Written write(const std::string& id, std::string_view bytes, const std::string& expected) const;

  // Into the bin, under its id and revision.
  Written discard(const std::string& id, const std::string& expected) const;

 private:
  Written replace(const std::string& id, std::string_view bytes) const;
  Descriptor bin(bool make) const;

  Descriptor folder_;
  std::string problem_;
};

// 1 to 64 of a-z, 0-9 and dashes, the first not a dash.
bool is_job_id(std::string_view id);

// "ID.REVISION"
bool is_bin_id(std::string_view id);

}  // namespace lapwright::serve
