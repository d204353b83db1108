#include "serve/serve.h"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdint>
#include <cstdio>
#include <string>
#include <vector>

#include "serve/descriptor.h"
#include "serve/gate.h"
#include "serve/listener.h"
#include "serve/loop.h"
#include "serve/places.h"
#include "serve/site.h"

namespace lapwright::serve {

namespace {

constexpr int kCannotBegin = 2;

// All that a signal may touch: the writing end of a pipe whose other end the loop watches.
volatile std::sig_atomic_t stop_pipe = -1;

extern "C" void ask_to_stop(int /*signal*/) {
  const int kept = errno;
  const char byte = 0;
  (void)!::write(stop_pipe, &byte, 1);
  errno = kept;
}

Descriptor stop_on_signals() {
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC | O_NONBLOCK) != 0) return {};
  stop_pipe = ends[1];  // stays open until the program ends: a signal may come at any time
  struct sigaction action{};
  action.sa_handler = &ask_to_stop;
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) ::sigaction(signal, &action, nullptr);
  // These would end the program where an error can be told instead: a client that is gone, a limit on file
  // sizes.
  action.sa_handler = SIG_IGN;
  for (const int signal : {SIGPIPE, SIGXFSZ}) ::sigaction(signal, &action, nullptr);
  return Descriptor(ends[0]);
}

int complain(const std::string& line) {
  std::fprintf(stderr, "%s\n", line.c_str());
  return kCannotBegin;
}

void say(const std::string& line) {
  std::fprintf(stdout, "%s\n", line.c_str());
  std::fflush(stdout);  // whoever started it may be reading along
}

bool is_everywhere(const std::string& address) {
  return address == "0.0.0.0" || address == "::";
}

// One line per address at which it can be reached.
void say_where(const Options& options, const Site& site) {
  const std::uint16_t port = site.gate.port;
  if (site.gate.token.empty()) {
    say("The page: http://" + with_port(options.listen == "localhost" ? "127.0.0.1" : options.listen, port) +
        "/");
    return;
  }
  const std::vector<std::string> addresses =
      is_everywhere(options.listen) ? own_addresses() : std::vector<std::string>{options.listen};
  for (const std::string& address : addresses) {
    say("The page: http://" + with_port(address, port) + "/?token=" + site.gate.token);
  }
  say("Whoever has this link can read and change the jobs. It holds until the server ends, and it is not "
      "encrypted:");
  say("hand it to nobody else, and use it only in a network that you trust.");
}

}  // namespace

int run(const Options& options, std::string_view version) {
  const std::string page = options.page.empty() ? usual_page_folder() : options.page;
  if (page.empty()) {
    return complain(
        "there is no page beside this program: build it with `scripts/build page`, or name its folder with "
        "--page FOLDER");
  }
  const std::string jobs = options.jobs.empty() ? usual_jobs_folder() : options.jobs;
  if (jobs.empty())
    return complain("there is no home folder to keep jobs in: name a folder with --jobs FOLDER");

  Site site;
  site.version = version;
  site.page = Page::read(page);
  if (!site.page.problem().empty()) return complain(site.page.problem());
  site.jobs = Jobs::open(jobs);
  if (!site.jobs.problem().empty()) return complain(site.jobs.problem());

  const Descriptor stop = stop_on_signals();
  if (!stop) return complain("this system gives no pipe to be stopped by");
  Listener listener = listen_at(options.listen, static_cast<std::uint16_t>(options.port));
  if (!listener.socket) return complain(listener.problem);
  site.gate.port = listener.port;
  if (options.listen != "localhost" && !is_loopback(options.listen)) {
    site.gate.token = make_token();
    if (site.gate.token.empty()) return complain("this system gives no random numbers for a token");
    site.gate.names = own_names();
  }

  say_where(options, site);
  say("The jobs are kept in " + jobs);
  for (const std::string& name : site.page.left_out()) say("Left out of the page: " + name);
  say("Ctrl-C ends it.");
  serve_until(stop, listener.socket, site, std::chrono::seconds(std::clamp(options.patience, 1, 3600)));
  say("Ended.");
  return 0;
}

}  // namespace lapwright::serve
