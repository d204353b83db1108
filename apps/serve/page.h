// The page's files: read once, at the start, and known by name from then on. No request ever reaches the file
// system, so that none can leave the folder.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "serve/head.h"
#include "serve/reply.h"

namespace lapwright::serve {

class Page {
 public:
  // Reads the folder and those below it. Links, hidden files and names beyond letters, digits, dot, dash,
  // underscore are left out (`left_out` names them). On failure `problem` is one line, and the page must not
  // be used.
  static Page read(const std::string& folder);

  // The answer to GET of this path; a 404 when it is not known.
  Reply answer(const Head& head) const;

  const std::string& problem() const { return problem_; }
  const std::vector<std::string>& left_out() const { return left_out_; }

 private:
  struct File {
    std::string bytes;
    std::string tag;  // entity tag, in its quotes
    std::string_view type;
    bool to_keep = false;  // handed out to be kept, not to be shown
  };

  bool read_folder(int folder, const std::string& path, int depth);
  bool add(int folder, const std::string& name, const std::string& path);
  bool fail(std::string problem);

  std::map<std::string, File, std::less<>> files_;  // by path: "/assets/engine.wasm"
  std::size_t bytes_ = 0;
  std::string problem_;
  std::vector<std::string> left_out_;
};

// By the ending of the name. WebAssembly is only compiled while it arrives under its right name.
std::string_view media_type(std::string_view name);

}  // namespace lapwright::serve
