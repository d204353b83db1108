// Units side by side between two ends.
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <vector>

namespace lapwright::setout {

struct Bond {
  Length unit;
  Length and_half;  // a unit and a half
  Length joint;
  Length narrowest;
};

Bond bond_of(const job::Covering& covering, const practice::Pack& pack);

// Fills `room` (clear width, between the gaps) from the left, the first unit `first` wide. The last unit is
// cut to what is left; where that would be narrower than allowed it is cut, together with its neighbour, from
// a unit and a half, or the two share what is left. Unless the last is but part of a unit that goes on: then
// it is as wide as it comes.
std::vector<job::UnitRun> fill(Length room, Length first, const Bond& bond, bool goes_on = false);

struct Filled {
  Length from;
  std::vector<job::UnitRun> widths;
};

// The joints of a whole course: the middle of one, and every unit and joint from there to the right; to the
// left too where the course has no first unit of its own.
struct Joints {
  Length first;
  bool before = false;
};

// Whether a line through a whole course goes through a unit, not between two.
bool cuts_a_unit(Length u, const Joints& joints, const Bond& bond);

// Fills from `a` to `b` with the units of a whole course: those at the ends are cut, by the same rule at
// both, unless they go on past that end.
struct GoesOn {
  bool left = false;
  bool right = false;
};
Filled fill_between(Length a, Length b, const Joints& joints, const Bond& bond, GoesOn goes_on);

}  // namespace lapwright::setout
