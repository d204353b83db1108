// What can be wrong with input, and the one table that names it.
//
// A fault is for a person: where (a JSON path, a line and column), what was read, what is accepted, how to
// mend it. Every fault of a file is gathered before anything is said; `Result` carries either a value or the
// faults.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

namespace lapwright {

enum class FaultCode : std::uint8_t {
  not_json,       // the bytes are not JSON
  too_deep,       // more nesting than any honest file has
  too_many,       // a list or file longer than any honest file has
  duplicate_key,  // the same key twice in one object
  unknown_key,    // a key that this format does not have
  missing_key,    // a key that has no default
  wrong_type,     // a string where a number belongs, ...
  bad_number,     // NaN, infinite, or beyond the range of a double
  bad_length,     // a length that cannot be read
  out_of_range,   // a value that no roof has
  bad_choice,     // a word that is not one of the accepted ones
  bad_format,     // the file's "format" is not one that this reader knows
  unknown_rule,   // a practice override of a rule that does not exist
  contradiction,  // two values that cannot both hold
  no_geometry,    // values that are each possible, but make no roof together
  internal,       // our own fault
};

struct FaultName {
  FaultCode code;
  std::string_view name;
};

// One row per code, in order; a test holds the table complete.
inline constexpr std::array<FaultName, 16> kFaultNames{{
    {FaultCode::not_json, "not-json"},
    {FaultCode::too_deep, "too-deep"},
    {FaultCode::too_many, "too-many"},
    {FaultCode::duplicate_key, "duplicate-key"},
    {FaultCode::unknown_key, "unknown-key"},
    {FaultCode::missing_key, "missing-key"},
    {FaultCode::wrong_type, "wrong-type"},
    {FaultCode::bad_number, "bad-number"},
    {FaultCode::bad_length, "bad-length"},
    {FaultCode::out_of_range, "out-of-range"},
    {FaultCode::bad_choice, "bad-choice"},
    {FaultCode::bad_format, "bad-format"},
    {FaultCode::unknown_rule, "unknown-rule"},
    {FaultCode::contradiction, "contradiction"},
    {FaultCode::no_geometry, "no-geometry"},
    {FaultCode::internal, "internal"},
}};

// Where in the text a value stood. line and column count from 1; 0 means unknown (made, not read).
struct SourceSpot {
  std::uint32_t line = 0;
  std::uint32_t column = 0;
};

// What a number may be, in the file's unit as a person reads it ("4130 mm", "90°"); empty: no bound on that
// side.
struct FaultRange {
  std::string least;
  std::string most;
  bool above_least = false;  // the bound itself is refused
  bool below_most = false;

  bool known() const { return !least.empty() || !most.empty(); }
};

struct Fault {
  FaultCode code = FaultCode::internal;
  std::string path;      // JSON path, e.g. $.slopes[0].pitch
  SourceSpot spot;       // of the value, or of the key when the key is at fault
  std::string read;      // what was read, quoted and cut to a sane length
  std::string accepted;  // what is accepted there
  std::string mend;      // what to do, in words
  FaultRange range{};    // where a number is at fault: `accepted` for a host that has words of its own
};

using Faults = std::vector<Fault>;

std::string_view name_of(FaultCode code);

// One line: `$.slopes[0].pitch (line 6, column 16): read "steep"; accepted: a number of degrees ...; mend:
// ...`. Never contains a line break or a control character, whatever was read.
std::string to_line(const Fault& fault);

// Quotes text for a message: control characters and bad UTF-8 become visible escapes; at most `limit` bytes
// are kept (cut between characters, with an ellipsis).
std::string quoted(std::string_view text, std::size_t limit = 60);

template <class T>
class [[nodiscard]] Result : public tl::expected<T, Faults> {
 public:
  using tl::expected<T, Faults>::expected;
};

inline tl::unexpected<Faults> failed(Fault fault) {
  Faults faults;
  faults.push_back(std::move(fault));
  return tl::unexpected<Faults>(std::move(faults));
}
inline tl::unexpected<Faults> failed(Faults faults) {
  return tl::unexpected<Faults>(std::move(faults));
}

}  // namespace lapwright
