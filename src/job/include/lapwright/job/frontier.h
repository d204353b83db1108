// How much weather a junction stands, beside what the plain covering of the same pitch and courses stands.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace lapwright::job {

struct Frontier {
  std::string slope;
  std::string junction;
  double drift = 0;  // degrees to either side of the line of fall, without climb; below 0: leaks without any
  double climb = 0;  // mm up along the units, without drift; below 0: leaks without any
  double rise = 0;   // the same as a head of water, mm
  double wind = 0;   // m/s that holds up such a head
  double covering_drift = 0;
  double covering_climb = 0;
  struct Point {
    double drift = 0;     // degrees
    double climb = 0;     // mm stood at that drift; below 0: the drift alone is too much
    double covering = 0;  // mm that the covering stands there
  };
  std::vector<Point> points;
  double run = 0;  // mm up the slope: side-creep grows with it
  std::int64_t courses = 0;
  bool holds = true;
};

}  // namespace lapwright::job
