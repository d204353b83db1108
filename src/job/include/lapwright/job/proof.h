// What the checker found out about a plan, as plain structs: for the plan's file and for the proof sheets.
#pragma once

#include <lapwright/base/units.h>
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

// How much weather a junction stands, beside what the plain covering of the same pitch and courses stands.
struct Frontier {
  std::string slope;
  std::string junction;
  double drift = 0;  // degrees to either side of the line of fall, without wind up the slope; below 0: none at all
  double climb = 0;  // mm up along the units, without drift; below 0: none at all
  double rise = 0;   // the same as a head of water, mm
  double wind = 0;   // m/s that holds up such a head
  double covering_drift = 0;
  double covering_climb = 0;
  double covering_climb_nailed = 0;  // with the covering's own nail holes
  struct Point {
    double drift = 0;  // degrees
    double climb = 0;  // mm stood at that drift
    double covering = 0;
  };
  std::vector<Point> points;
  double run = 0;  // mm up the slope: side-creep grows with it
  std::int64_t courses = 0;
  bool holds = true;
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
  Corner low;   // what to show
  Corner high;
};

struct Proof {
  std::vector<Measure> measures;
  std::vector<Frontier> frontiers;
  std::vector<Trace> traces;
};

}  // namespace lapwright::job
