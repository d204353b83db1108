#include "serve/serve.h"

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <string>
#include <vector>

#include "serve/addresses.h"
#include "serve/gate.h"
#include "serve/places.h"
#include "serve/server.h"
#include "serve/site.h"

namespace lapwright::serve {

namespace {

constexpr int kCannotBegin = 2;

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

  Server server;
  const std::string problem = server.listen(options.listen, static_cast<std::uint16_t>(options.port));
  if (!problem.empty()) return complain(problem);
  site.gate.port = server.port();
  if (options.listen != "localhost" && !is_loopback(options.listen)) {
    site.gate.token = make_token();
    if (site.gate.token.empty()) return complain("this system gives no random numbers for a token");
    site.gate.names = own_names();
  }

  say_where(options, site);
  say("The jobs are kept in " + jobs);
  for (const std::string& name : site.page.left_out()) say("Left out of the page: " + name);
  say("Ctrl-C ends it.");
  server.run(site, std::chrono::seconds(std::clamp(options.patience, 1, 3600)));
  say("Ended.");
  return 0;
}

}  // namespace lapwright::serve
