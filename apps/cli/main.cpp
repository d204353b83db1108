// The command line: arguments, files and exit statuses around the engine. It computes nothing.
#include "files.h"

#include <lapwright/engine/engine.h>

#include <serve/serve.h>
#include <CLI/CLI.hpp>

#include <cstdio>
#include <string>
#include <string_view>

namespace {

namespace engine = lapwright::engine;
namespace cli = lapwright::cli;

constexpr int kUnreadable = static_cast<int>(engine::Status::unreadable);

int complain(std::string_view line) {
  std::fprintf(stderr, "%.*s\n", static_cast<int>(line.size()), line.data());
  return kUnreadable;
}

// Everything or a complaint: a pipe that closes early is not our fault, a full disk is said.
int print(std::string_view text) {
  const bool whole =
      std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
  return whole ? 0 : complain("standard output: cannot be written");
}

int fail_with(const engine::Outcome& outcome) {
  for (const std::string& line : outcome.faults) complain(line);
  return static_cast<int>(outcome.status);
}

bool failed(const engine::Outcome& outcome) {
  return outcome.status == engine::Status::unreadable || outcome.status == engine::Status::our_fault;
}

// The documents first, plan.json last: who finds a plan.json finds everything that belongs to it.
int write_all(const engine::Outcome& outcome, const std::string& folder) {
  if (const std::string problem = cli::make_folder(folder); !problem.empty()) return complain(problem);
  for (const engine::Document& document : outcome.documents) {
    const std::string problem = cli::write_file(folder + "/" + document.name, document.bytes);
    if (!problem.empty()) return complain(problem);
  }
  const std::string problem = cli::write_file(folder + "/plan.json", outcome.json);
  return problem.empty() ? 0 : complain(problem);
}

struct Options {
  std::string job;
  std::string out;
  std::string mark;
  std::string schema;
  bool json = false;
  lapwright::serve::Options serve;
};

int run_plan(const Options& options) {
  const cli::Read job = cli::read_file(options.job);
  if (!job.bytes) return complain(job.problem);
  const engine::Outcome outcome = engine::plan({*job.bytes, !options.out.empty()});
  if (failed(outcome)) return fail_with(outcome);
  if (!options.out.empty()) {
    if (const int status = write_all(outcome, options.out); status != 0) return status;
  }
  if (const int status = print(options.json ? outcome.json : outcome.text); status != 0) return status;
  if (!options.json && !options.out.empty()) {
    std::string files = "written to " + options.out + "/: ";
    for (const engine::Document& document : outcome.documents) files += document.name + ", ";
    if (const int status = print(files + "plan.json\n"); status != 0) return status;
  }
  return static_cast<int>(outcome.status);
}

int run_check(const Options& options) {
  const cli::Read job = cli::read_file(options.job);
  if (!job.bytes) return complain(job.problem);
  const engine::Outcome outcome = engine::check({*job.bytes});
  if (failed(outcome)) return fail_with(outcome);
  if (const int status = print(options.json ? outcome.json : outcome.text); status != 0) return status;
  return static_cast<int>(outcome.status);
}

int run_why(const Options& options) {
  const cli::Read job = cli::read_file(options.job);
  if (!job.bytes) return complain(job.problem);
  const engine::Outcome outcome = engine::why({*job.bytes}, options.mark);
  if (failed(outcome)) return fail_with(outcome);
  if (const int status = print(outcome.text); status != 0) return status;
  return static_cast<int>(outcome.status);
}

int run_rules() {
  const engine::Outcome outcome = engine::rules();
  if (failed(outcome)) return fail_with(outcome);
  return print(outcome.text);
}

int run_schema(const Options& options) {
  const std::string text = engine::schema(options.schema);
  if (text.empty()) return complain("schema: read \"" + options.schema + "\"; accepted: job, plan");
  return print(text);
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"lapwright: from a few measurements of a roof against a wall to every piece of lead for it"};
  app.set_version_flag("--version", std::string(engine::version()));
  app.require_subcommand(1);
  Options options;

  auto* plan = app.add_subcommand("plan", "Plan a job: set-out, pieces, findings, order of work");
  plan->add_option("JOB", options.job, "job file, format lapwright-job/1")->required();
  plan->add_option("--out", options.out, "folder for plan.json and the drawings");
  plan->add_flag("--json", options.json, "print the plan as JSON and nothing else");

  auto* check = app.add_subcommand("check", "Findings only: what is wrong or doubtful");
  check->add_option("JOB", options.job, "job file")->required();
  check->add_flag("--json", options.json, "print them as JSON");

  auto* why = app.add_subcommand("why", "Explain every figure of one piece, or of a slope's set-out");
  why->add_option("JOB", options.job, "job file")->required();
  why->add_option("MARK", options.mark, "a piece's mark (S1, F2, ...) or a slope's name")->required();

  auto* rules = app.add_subcommand(
      "rules", "List the practice rules that a job may set for itself, with their sources");

  auto* schema = app.add_subcommand("schema", "Print the JSON schema of a file format");
  schema->add_option("NAME", options.schema, "job or plan")->required();

  auto* serve = app.add_subcommand(
      "serve",
      "Hand out the page and keep its jobs in a folder, for this machine alone unless --listen says more");
  serve->add_option("--port", options.serve.port, "port; 0 takes any that is free")
      ->check(CLI::Range(0, 65535))
      ->capture_default_str();
  serve
      ->add_option(
          "--listen", options.serve.listen,
          "address to listen at; beyond this machine every request needs the token of the printed link")
      ->capture_default_str();
  serve->add_option("--jobs", options.serve.jobs,
                    "folder that keeps the jobs (~/.local/share/lapwright/jobs)");
  serve->add_option("--page", options.serve.page, "folder with the built page (the one beside this program)");
  serve->add_option("--patience", options.serve.patience, "seconds that a client may take for its question")
      ->check(CLI::Range(1, 3600))
      ->capture_default_str();

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    const int status = app.exit(error);
    return status == 0 ? 0 : kUnreadable;
  }
  if (*plan) return run_plan(options);
  if (*check) return run_check(options);
  if (*why) return run_why(options);
  if (*rules) return run_rules();
  if (*serve) return lapwright::serve::run(options.serve, engine::version());
  return run_schema(options);
}
