// The chance that a measured rule does not hold once the work is done: tapes, units and hands are never
// exact.
#pragma once

#include <string>

namespace lapwright::job {

struct Odds {
  std::string rule;  // of a finding
  std::string slope;
  std::string junction;
  std::string where;  // of the nearest to its limit, as planned
  double value = 0;   // as planned, mm
  double limit = 0;
  bool at_most = false;
  double chance = 0;    // 0 to 1, of so many sampled roofs
  std::string matters;  // what moves it most: "thickness", "camber", "length", "rafter", "joints", "cutting"
  double moves = 0;     // mm: the usual (root mean square) shift that this alone makes
};

}  // namespace lapwright::job
