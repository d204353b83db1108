// The engine for a host that is not C++: bytes in, one block of bytes out.
//
// The host writes its input into memory from engine_alloc, calls engine_plan (no yard, the quickest cutting
// list), _see, _check, _why, _rules, _texts, _compare, _price_check, _form, _yard or _schema, or plans in
// slices with engine_begin, _step and _finish, and reads the block that the answer points at: numbers are
// unsigned, 32 bits, little-endian.
//
//   size of the whole block | status, as the command's exit status | number of parts
//   per part: length of name | length of media type | length of bytes | name | media type | bytes
//
// The first three parts are always the faults (one a line), the JSON and the text; documents follow. The host
// gives the block and its own input back with engine_free. scripts/engine.mjs is the other side.
#include <lapwright/engine/engine.h>

#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <string>
#include <string_view>

extern "C" {
void* engine_alloc(std::uint32_t size);
void engine_free(void* memory);
const char* engine_plan(const char* job, std::uint32_t job_size, std::uint32_t documents);
void* engine_begin(const char* job, std::uint32_t job_size, const char* yard, std::uint32_t yard_size,
                   const char* only, std::uint32_t only_size, const char* paper, std::uint32_t paper_size,
                   std::uint32_t documents, std::uint32_t effort, std::uint32_t rolls, double room_width);
std::uint32_t engine_step(void* run);
const char* engine_finish(void* run);
const char* engine_check(const char* job, std::uint32_t job_size, std::uint32_t odds);
const char* engine_see(const char* job, std::uint32_t job_size, double room_width, double room_height);
const char* engine_why(const char* job, std::uint32_t job_size, const char* mark, std::uint32_t mark_size,
                       double room_width, double room_height);
const char* engine_rules(const char* job, std::uint32_t job_size);
const char* engine_texts();
const char* engine_compare(const char* a, std::uint32_t a_size, const char* b, std::uint32_t b_size,
                           const char* yard, std::uint32_t yard_size, std::uint32_t documents);
const char* engine_price_check(const char* offer, std::uint32_t offer_size, const char* yard,
                               std::uint32_t yard_size);
const char* engine_form(const char* job, std::uint32_t job_size, const char* paper, std::uint32_t paper_size);
const char* engine_yard(const char* yard, std::uint32_t yard_size);
const char* engine_schema(const char* name, std::uint32_t name_size);
const char* engine_version();
}

namespace {

namespace engine = lapwright::engine;

void append_number(std::string& out, std::size_t value) {
  for (unsigned shift = 0; shift < 32; shift += 8) out += static_cast<char>((value >> shift) & 0xFFU);
}

void append_part(std::string& out, std::string_view name, std::string_view media, std::string_view bytes) {
  append_number(out, name.size());
  append_number(out, media.size());
  append_number(out, bytes.size());
  out += name;
  out += media;
  out += bytes;
}

const char* handed_over(const engine::Outcome& outcome) {
  std::string faults;
  for (const std::string& line : outcome.faults) faults += line + "\n";
  std::string block(4, '\0');
  append_number(block, static_cast<std::size_t>(outcome.status));
  append_number(block, 3 + outcome.documents.size());
  append_part(block, "faults", "text/plain", faults);
  append_part(block, "json", "application/json", outcome.json);
  append_part(block, "text", "text/plain", outcome.text);
  for (const engine::Document& document : outcome.documents) {
    append_part(block, document.name, document.media, document.bytes);
  }
  std::string size;
  append_number(size, block.size());
  block.replace(0, 4, size);

  auto* memory = static_cast<char*>(engine_alloc(static_cast<std::uint32_t>(block.size())));
  if (memory != nullptr) std::memcpy(memory, block.data(), block.size());
  return memory;
}

engine::Request for_screen(std::string_view job, double room_width, double room_height) {
  engine::Request request;
  request.job = job;
  request.room_width = room_width;
  request.room_height = room_height;
  return request;
}

}  // namespace

void* engine_alloc(std::uint32_t size) {
  return std::malloc(size == 0 ? 1 : size);
}

void engine_free(void* memory) {
  std::free(memory);
}

const char* engine_plan(const char* job, std::uint32_t job_size, std::uint32_t documents) {
  return handed_over(engine::plan({{job, job_size}, documents != 0}));
}

// A planning in slices. `documents`: 1 for them, 2 more for their pages as pictures. `effort` in hundredths
// of a second's work. The four texts stay in memory until the end.
void* engine_begin(const char* job, std::uint32_t job_size, const char* yard, std::uint32_t yard_size,
                   const char* only, std::uint32_t only_size, const char* paper, std::uint32_t paper_size,
                   std::uint32_t documents, std::uint32_t effort, std::uint32_t rolls, double room_width) {
  engine::Request request;
  request.job = {job, job_size};
  request.yard = {yard, yard_size};
  request.only = {only, only_size};
  request.paper = {paper, paper_size};
  request.documents = (documents & 1U) != 0;
  request.pages = (documents & 2U) != 0;
  request.effort = effort / 100.0;
  request.rolls = rolls != 0;
  request.room_width = room_width;
  return new engine::Run(request);
}

// Some milliseconds. Thousandths done, at most 999 while there is more to do; 1000 when done; 2000 more once
// there is a whole plan, so that a host knows when it may stop.
std::uint32_t engine_step(void* run) {
  auto* one = static_cast<engine::Run*>(run);
  const bool more = one->step();
  const auto done = static_cast<std::uint32_t>(one->progress() * 999);
  return (more ? done : 1000U) + (one->has_plan() ? 2000U : 0U);
}

// The plan as engine_plan hands it over, with the yard after the job as a part `yard.json`; the run is gone.
const char* engine_finish(void* run) {
  auto* one = static_cast<engine::Run*>(run);
  engine::Outcome outcome = one->finish();
  delete one;
  outcome.documents.push_back({"yard.json", "application/json", outcome.yard});
  return handed_over(outcome);
}

const char* engine_check(const char* job, std::uint32_t job_size, std::uint32_t odds) {
  engine::Request request;
  request.job = {job, job_size};
  request.odds = odds != 0;
  return handed_over(engine::check(request));
}

const char* engine_see(const char* job, std::uint32_t job_size, double room_width, double room_height) {
  return handed_over(engine::see(for_screen({job, job_size}, room_width, room_height)));
}

const char* engine_why(const char* job, std::uint32_t job_size, const char* mark, std::uint32_t mark_size,
                       double room_width, double room_height) {
  return handed_over(engine::why(for_screen({job, job_size}, room_width, room_height), {mark, mark_size}));
}

const char* engine_rules(const char* job, std::uint32_t job_size) {
  return handed_over(engine::rules({{job, job_size}, false}));
}

const char* engine_texts() {
  return handed_over(engine::texts());
}

// Two jobs' plans side by side, each with the first whole cutting list.
const char* engine_compare(const char* a, std::uint32_t a_size, const char* b, std::uint32_t b_size,
                           const char* yard, std::uint32_t yard_size, std::uint32_t documents) {
  const std::string_view prices(yard, yard_size);
  return handed_over(
      engine::compare({{a, a_size}, documents != 0, prices, 0}, {{b, b_size}, false, prices, 0}));
}

const char* engine_price_check(const char* offer, std::uint32_t offer_size, const char* yard,
                               std::uint32_t yard_size) {
  return handed_over(engine::price_check({offer, offer_size}, {yard, yard_size}));
}

// An empty job: the empty form.
const char* engine_form(const char* job, std::uint32_t job_size, const char* paper,
                        std::uint32_t paper_size) {
  return handed_over(engine::form({job, job_size}, {paper, paper_size}));
}

const char* engine_yard(const char* yard, std::uint32_t yard_size) {
  return handed_over(engine::read_yard({yard, yard_size}));
}

const char* engine_schema(const char* name, std::uint32_t name_size) {
  engine::Outcome outcome;
  outcome.json = engine::schema({name, name_size});
  if (outcome.json.empty()) outcome.status = engine::Status::unreadable;
  return handed_over(outcome);
}

const char* engine_version() {
  engine::Outcome outcome;
  outcome.text = engine::version();
  return handed_over(outcome);
}
