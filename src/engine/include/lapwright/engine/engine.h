// The facade: job bytes in, plan and documents out. The only header that hosts include.
//
// Pure: no file, socket, clock or global state; the same request gives the same bytes in every build, native
// or WebAssembly. Nothing here throws.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace lapwright::engine {

// The exit status of the command, too.
enum class Status : std::uint8_t {
  done = 0,
  wrong = 1,       // done, but something is what the trade forbids
  unreadable = 2,  // input that cannot be read, or makes no geometry
  our_fault = 3,
};

struct Request {
  std::string_view job;    // bytes of a job file
  bool documents = false;  // also compose the drawings and sheets
};

struct Document {
  std::string name;   // a file name: "elevation-house-wall.svg"
  std::string media;  // "image/svg+xml", "application/pdf", "text/csv", ...
  std::string bytes;
};

struct Outcome {
  Status status = Status::done;
  std::vector<std::string> faults;  // one line each, when unreadable
  std::string json;                 // the plan, or the findings
  std::string text;                 // the same for a person, ends in a line break
  std::vector<Document> documents;  // in the order to write them
};

std::string_view version();

// Plans a job: json is format "lapwright-plan/1", text is the table.
Outcome plan(const Request& request);

// The findings only: json is format "lapwright-findings/1".
Outcome check(const Request& request);

// Every figure of one piece (by its mark) or of a slope's set-out (by the slope's name), explained. An
// unknown mark is unreadable, and the fault lists the marks that there are.
Outcome why(const Request& request, std::string_view mark);

// The practice pack's rules as text: what a job may set for itself under "practice".
Outcome rules();

// The published schemas: "job", "plan". Empty for another name.
std::string schema(std::string_view name);

}  // namespace lapwright::engine
