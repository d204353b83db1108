// The facade: job bytes in, plan and documents out. The only header that hosts include.
//
// Pure: no file, socket, clock or global state; the same request gives the same bytes in every build, native
// or WebAssembly. Nothing here throws.
#pragma once

#include <cstdint>
#include <memory>
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
  std::string_view job{};   // bytes of a job file; they outlive the call, or the run
  bool documents = false;   // also compose the drawings and sheets
  std::string_view yard{};  // bytes of a yard file; empty: common widths and lengths, invented prices
  // Of cutting: 1 is about a second of one thread, counted in work, not by a clock. 0: the first whole plan
  // with its bound.
  double effort = 0;
  // Of the documents, only these: "survey", "order", "cutting", "fitting", "quote", "price", "proof", "care",
  // "sheets", "drawings"; commas between. Empty: all.
  std::string_view only{};
  std::string_view paper{};  // "A4" or "A3"; empty: A4
  double room_width = 180;   // what a screen has for a picture, mm at the size that it is shown
  double room_height = 180;
  bool pages =
      false;  // with documents: also each page of each PDF, for a screen: "page/order/1" is order.pdf's first
  bool rolls = false;  // of plan(): also each roll as it is cut, as a picture for a screen: "roll/R1", ...
  bool odds = false;   // also the chance that each measured rule does not hold, by sampled roofs; some tenths
                       // of a second
};

struct Document {
  std::string name;   // a file name: "elevation-house-wall.svg"
  std::string media;  // "image/svg+xml", "application/pdf", "text/csv", ...
  std::string bytes;
};

struct Outcome {
  Status status = Status::done;
  std::vector<std::string> faults;  // one line each, when unreadable
  std::string json;                 // the plan, or the findings; unreadable: "lapwright-faults/1"
  std::string text;                 // the same for a person, ends in a line break
  std::vector<Document> documents;  // in the order to write them
  std::string yard;                 // of plan(): the yard file as it stands after this job
};

std::string_view version();

// Plans a job: json is format "lapwright-plan/1", text is the table.
Outcome plan(const Request& request);

// The same in slices, so that a host can show progress and stop: after any step that has_plan() follows,
// finish() gives a whole plan, and after the last step the one that plan() gives.
class Run {
 public:
  explicit Run(const Request& request);
  ~Run();
  Run(Run&&) noexcept;
  Run& operator=(Run&&) noexcept;

  bool step();  // some milliseconds; false when there is nothing left to do
  bool has_plan() const;
  double progress() const;  // 0 to 1
  Outcome finish();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

// The plan as plan() gives it, and pictures for a screen as documents (SVG whose ink is `currentColor` and
// whose paper is `var(--paper)`), named as lapwright/sheets/sheets.h says. Quicker than plan() with
// documents: nothing for paper is composed. Not `examined`, several times quicker again: the plan then has no
// "check", and no finding of how it stands against water.
Outcome see(const Request& request, bool examined = true);

// The findings only: json is format "lapwright-findings/1".
Outcome check(const Request& request);

// Every figure of one piece (by its mark) or of a slope's set-out (by the slope's name), explained. An
// unknown mark is unreadable, and the fault lists the marks that there are. json is format "lapwright-why/1";
// a piece's flat shape is the one document.
Outcome why(const Request& request, std::string_view mark);

// Where two jobs' plans differ: json is format "lapwright-compare/1", text the table; documents (of `a`'s
// request) are compare.pdf and compare.csv.
Outcome compare(const Request& a, const Request& b);

// A price that somebody else gave, in words ("50 m of code 4 at 150 wide, £570"), beside the yard's. Empty
// yard: the built-in one, whose prices are invented.
Outcome price_check(std::string_view offer, std::string_view yard);

// A yard file as it is read: json is the same yard written again, lengths in mm, what it leaves out put in.
// Empty: the built-in one, whose prices are invented. A yard that cannot be read is unreadable, every fault
// at its place.
Outcome read_yard(std::string_view yard);

// The form to measure by, one document survey.pdf: empty, or filled from a job.
Outcome form(std::string_view job, std::string_view paper = {});

// The practice pack's rules: what a job may set for itself under "practice". text is the pack's own; json,
// format "lapwright-rules/1", has the values of the job, which may be empty.
Outcome rules(const Request& request = {});

// Format "lapwright-texts/1": the sentences and names that need no values, by key.
Outcome texts();

// The published schemas: "job", "plan", "yard". Empty for another name.
std::string schema(std::string_view name);

}  // namespace lapwright::engine
