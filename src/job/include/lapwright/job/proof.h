// What the checker found out about a plan, as plain structs: for the plan's file and for the proof sheets.
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/job/frontier.h>
#include <lapwright/job/plan.h>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace lapwright::job {

// One measured rule at one junction: the nearest to its limit of all places that were measured.
struct Measure {
  std::string rule;  // names its words in the catalogue: "finding." + rule, "sheet." + rule
  std::string slope;
  std::string junction;
  std::string where;  // of the value: "rear / house wall / course 3"
  double value = 0;   // mm
  double limit = 0;
  bool at_most = false;  // the limit is the most, not the least
  bool holds = true;
  std::string source;
};

// A junction as traced, for drawing: everything in the slope's (u, s), mm.
struct Trace {
  struct Corner {
    double u = 0;
    double s = 0;
  };
  using Ring = std::vector<Corner>;
  std::string slope;
  std::string junction;
  std::vector<Ring> units;  // from the lowest in the stack up
  std::vector<Ring> lead;
  std::vector<Ring> wet_below;  // on sheets under others: where water creeps
  std::vector<Corner> path;     // of the first leak, from where it was last rained on
  double drift = 0;             // the weather drawn
  double climb = 0;
  Corner low;  // what to show
  Corner high;
};

struct Proof {
  std::vector<Measure> measures;
  std::vector<Frontier> frontiers;
  std::vector<Trace> traces;
};

}  // namespace lapwright::job
