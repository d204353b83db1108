// `lapwright serve`: hands out the page and keeps jobs in a folder. It computes nothing: the page brings its
// own engine.
#pragma once

#include <string>
#include <string_view>

namespace lapwright::serve {

// Always the same, for an installed page belongs to its address.
inline constexpr int kUsualPort = 8427;

struct Options {
  int port = kUsualPort;             // 0: any that is free
  std::string listen = "127.0.0.1";  // anything beyond this machine: with a token
  std::string jobs;                  // empty: where the system keeps a person's data
  std::string page;                  // empty: beside the program
  int patience = 10;                 // seconds that a client may take to say what it wants
};

// Serves until it is told to end (Ctrl-C, SIGTERM). The exit status: 0; 2 when it could not begin, with one
// line on standard error.
int run(const Options& options, std::string_view version);

}  // namespace lapwright::serve
