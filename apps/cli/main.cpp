// The command line: arguments, files and exit statuses around the engine. It computes nothing.
#include "files.h"

#include <lapwright/engine/engine.h>

#include <serve/serve.h>
#include <CLI/CLI.hpp>

#include <chrono>
#include <cmath>
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
  std::string yard;
  std::string out;
  double effort = 1;
  double time_limit = 0;
  bool keep_offcuts = false;
  std::string other;
  std::string offer;
  std::string only;
  std::string paper;
  std::string mark;
  std::string schema;
  bool json = false;
  bool odds = false;
  lapwright::serve::Options serve;
};

// A clock is looked at only when a limit was asked for: without one the same input gives the same plan.
engine::Outcome planned(const engine::Request& request, double time_limit) {
  if (time_limit <= 0) return engine::plan(request);
  const auto start = std::chrono::steady_clock::now();
  engine::Run run(request);
  while (run.step()) {
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - start;
    if (run.has_plan() && passed.count() >= time_limit) break;
  }
  return run.finish();
}

int run_plan(const Options& options) {
  if (!std::isfinite(options.effort) || !std::isfinite(options.time_limit)) {
    return complain("--effort, --time-limit: not a number");
  }
  if (options.keep_offcuts && options.yard.empty()) {
    return complain("--keep-offcuts: give the yard file that they go into, --yard YARD");
  }
  const cli::Read job = cli::read_file(options.job);
  if (!job.bytes) return complain(job.problem);
  cli::Read yard;
  if (!options.yard.empty()) {
    yard = cli::read_file(options.yard);
    if (!yard.bytes) return complain(yard.problem);
    if (yard.bytes->empty()) return complain(options.yard + ": empty");
  }
  const engine::Outcome outcome =
      planned({*job.bytes, !options.out.empty(), yard.bytes ? std::string_view(*yard.bytes) : "",
               options.effort, options.only, options.paper},
              options.time_limit);
  if (failed(outcome)) return fail_with(outcome);
  if (!options.out.empty()) {
    if (const int status = write_all(outcome, options.out); status != 0) return status;
  }
  if (options.keep_offcuts) {
    // Last of the files and in one go: a yard half written would lose lead that is there, and one that was
    // written for a plan that nobody got would, too.
    if (outcome.yard.empty())
      return complain(options.yard + ": its rack would hold more than a yard file may list");
    if (const std::string problem = cli::write_file(options.yard, outcome.yard); !problem.empty()) {
      return complain(problem);
    }
  }
  if (const int status = print(options.json ? outcome.json : outcome.text); status != 0) return status;
  if (!options.json && !options.out.empty()) {
    std::string files = "written to " + options.out + "/: ";
    for (const engine::Document& document : outcome.documents) files += document.name + ", ";
    if (const int status = print(files + "plan.json\n"); status != 0) return status;
  }
  return static_cast<int>(outcome.status);
}

// Reads the yard if one is named; empty bytes otherwise.
int read_yard(const Options& options, std::string& bytes) {
  if (options.yard.empty()) return 0;
  cli::Read yard = cli::read_file(options.yard);
  if (!yard.bytes) return complain(yard.problem);
  if (yard.bytes->empty()) return complain(options.yard + ": empty");
  bytes = std::move(*yard.bytes);
  return 0;
}

int write_documents(const engine::Outcome& outcome, const std::string& folder) {
  if (const std::string problem = cli::make_folder(folder); !problem.empty()) return complain(problem);
  std::string files;
  for (const engine::Document& document : outcome.documents) {
    const std::string problem = cli::write_file(folder + "/" + document.name, document.bytes);
    if (!problem.empty()) return complain(problem);
    files += (files.empty() ? "" : ", ") + document.name;
  }
  return print("written to " + folder + "/: " + files + "\n");
}

int run_compare(const Options& options) {
  const cli::Read a = cli::read_file(options.job);
  if (!a.bytes) return complain(a.problem);
  const cli::Read b = cli::read_file(options.other);
  if (!b.bytes) return complain(b.problem);
  std::string yard;
  if (const int status = read_yard(options, yard); status != 0) return status;
  const engine::Outcome outcome =
      engine::compare({*a.bytes, !options.out.empty(), yard, options.effort, {}, options.paper},
                      {*b.bytes, false, yard, options.effort, {}, {}});
  if (failed(outcome)) return fail_with(outcome);
  if (const int status = print(options.json ? outcome.json : outcome.text); status != 0) return status;
  if (!options.out.empty()) {
    if (const int status = write_documents(outcome, options.out); status != 0) return status;
  }
  return static_cast<int>(outcome.status);
}

int run_price_check(const Options& options) {
  std::string yard;
  if (const int status = read_yard(options, yard); status != 0) return status;
  const engine::Outcome outcome = engine::price_check(options.offer, yard);
  if (failed(outcome)) return fail_with(outcome);
  return print(outcome.text);
}

int run_form(const Options& options) {
  cli::Read job;
  if (!options.job.empty()) {
    job = cli::read_file(options.job);
    if (!job.bytes) return complain(job.problem);
    if (job.bytes->empty()) return complain(options.job + ": empty");
  }
  const engine::Outcome outcome =
      engine::form(job.bytes ? std::string_view(*job.bytes) : std::string_view(), options.paper);
  if (failed(outcome)) return fail_with(outcome);
  return write_documents(outcome, options.out.empty() ? "." : options.out);
}

int run_check(const Options& options) {
  const cli::Read job = cli::read_file(options.job);
  if (!job.bytes) return complain(job.problem);
  const engine::Outcome outcome = engine::check({.job = *job.bytes, .odds = options.odds});
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
  if (text.empty()) return complain("schema: read \"" + options.schema + "\"; accepted: job, plan, yard");
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
  plan->add_option("--yard", options.yard,
                   "yard file, format lapwright-yard/1: rolls on sale, offcuts, prices");
  plan->add_option("--effort", options.effort,
                   "work put into the cutting list; 1, the default, is about a second")
      ->check(CLI::Range(0.0, 1000.0));
  plan->add_option("--time-limit", options.time_limit,
                   "stop improving the cutting list after so many seconds")
      ->check(CLI::PositiveNumber);
  plan->add_flag("--keep-offcuts", options.keep_offcuts,
                 "put what is worth keeping into the yard file, and take out what was used");
  plan->add_option(
      "--only", options.only,
      "of the files, only these, commas between: survey, order, cutting, fitting, quote, price, proof, care, "
      "sheets, drawings");
  plan->add_option("--paper", options.paper, "A4, the default, or A3");
  plan->add_flag("--json", options.json, "print the plan as JSON and nothing else");

  auto* compare = app.add_subcommand("compare", "Every piece, course, quantity and price that differs");
  compare->add_option("A", options.job, "job file")->required();
  compare->add_option("B", options.other, "job file")->required();
  compare->add_option("--yard", options.yard, "yard file, for both");
  compare->add_option("--out", options.out, "folder for compare.pdf and compare.csv");
  compare->add_option("--paper", options.paper, "A4, the default, or A3");
  compare->add_flag("--json", options.json, "print the differences as JSON");

  auto* price_check = app.add_subcommand(
      "price-check", "A price that somebody else gave, a kilogram and a metre, beside the yard's");
  price_check->add_option("OFFER", options.offer, "\"50 m of code 4 at 150 wide, £570\"")->required();
  price_check->add_option("--yard", options.yard, "yard file");

  auto* form = app.add_subcommand("form", "The form to measure by, to print: empty, or filled from a job");
  form->add_option("JOB", options.job, "job file");
  form->add_option("--out", options.out, "folder for survey.pdf; the current one unless said otherwise");
  form->add_option("--paper", options.paper, "A4, the default, or A3");

  auto* check = app.add_subcommand("check", "Findings only: what is wrong or doubtful");
  check->add_option("JOB", options.job, "job file")->required();
  check->add_flag("--json", options.json, "print them as JSON");

  check->add_flag(
      "--odds", options.odds,
      "also the chance that each measure does not hold, tapes, units and hands being what they are");

  auto* why = app.add_subcommand("why", "Explain every figure of one piece, or of a slope's set-out");
  why->add_option("JOB", options.job, "job file")->required();
  why->add_option("MARK", options.mark, "a piece's mark (S1, F2, ...) or a slope's name")->required();

  auto* rules = app.add_subcommand(
      "rules", "List the practice rules that a job may set for itself, with their sources");

  auto* schema = app.add_subcommand("schema", "Print the JSON schema of a file format");
  schema->add_option("NAME", options.schema, "job, plan or yard")->required();

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
  if (*compare) return run_compare(options);
  if (*price_check) return run_price_check(options);
  if (*form) return run_form(options);
  if (*check) return run_check(options);
  if (*why) return run_why(options);
  if (*rules) return run_rules();
  if (*serve) return lapwright::serve::run(options.serve, engine::version());
  return run_schema(options);
}
