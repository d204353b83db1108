// The cuts of one roll, done again.
#pragma once

#include <lapwright/cutcheck/cutcheck.h>

#include <cstdint>
#include <string>
#include <vector>

namespace lapwright::cutcheck {

// In µm on the roll.
struct Rect {
  std::int64_t x = 0;
  std::int64_t y = 0;
  std::int64_t length = 0;
  std::int64_t width = 0;
};
struct LastPart {
  Rect rect;
  std::vector<std::string> marks;  // several where it was parted along teeth; none: left over
};

// The parts that no step cuts any further. Complaints go to `out`.
std::vector<LastPart> cut_again(const job::CutRoll& roll, std::int64_t kerf, std::vector<Complaint>& out);

// True when the insides of the two rings share more than a hair. Rings in µm.
bool share_area(const geom::Ring& a, const geom::Ring& b);

}  // namespace lapwright::cutcheck
