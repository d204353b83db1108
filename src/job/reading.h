// What a reading of one file carries along: its unit, and the faults found so far.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/job/document.h>
#include <lapwright/job/length_text.h>

#include <cstdint>
#include <string>
#include <string_view>

namespace lapwright::job {

// A place in the file as a chain of steps, so that a path costs text only when a fault needs it.
struct Path {
  const Path* up = nullptr;
  std::string_view key{};  // empty: an item
  std::size_t index = 0;

  Path under(std::string_view member) const { return {this, member, 0}; }
  Path item(std::size_t at) const { return {this, {}, at}; }
  std::string text() const;
};

class Reading {
 public:
  explicit Reading(LengthUnit unit) : unit_(unit) {}

  LengthUnit unit() const { return unit_; }
  bool sound() const { return faults_.empty(); }

  void fault(FaultCode code, const Path& path, SourceSpot spot, std::string read, std::string accepted,
             std::string mend, FaultRange range = {});
  // Takes up a fault whose place is not yet known.
  void place(Fault fault, const Path& path, SourceSpot spot);

  // In the order of the file; beyond kShown only their number is said.
  Faults take();

  static constexpr std::size_t kShown = 50;

 private:
  static constexpr std::size_t kKept = 2000;  // more are counted, not kept: a broken file may have 200,000

  LengthUnit unit_;
  Faults faults_;
  std::size_t uncounted_ = 0;
};

// A value as a message shows it: numbers as written, texts quoted, lists and objects by their size.
std::string shown(const Document& value);

// A length in the file's unit, with mm beside it where that is inches.
std::string shown_length(double mm, LengthUnit unit);

// The same for a bound: in the file's unit alone.
std::string shown_bound(double mm, LengthUnit unit);

}  // namespace lapwright::job
