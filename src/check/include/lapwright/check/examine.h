// The checker: placed shapes in, findings and proof out. It knows the limits (the practice pack) and the
// shapes, and none of the formulas that made them.
//
// Right means that every measured rule holds and that no junction stands less weather than the covering
// alone, less the soakers' set-back and 2 mm. Neither excuses the other.
#pragma once

#include <lapwright/check/placed.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/proof.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <string>
#include <vector>

namespace lapwright::check {

// The parts that can be switched off, so that a test can show that each is missed.
enum class Part : std::uint8_t {
  trace,
  face,
  headlap,
  sidelap,
  soaker_each_course,
  leg,
  tail,
  proud,
  soaker_lap,
  lap_along,
  lap_down,
  turn_in,
  piece_length,
  clearance,
  upstand,
  cover,
  nails,
  pipe,
  corner,
  join,
};

struct Options {
  bool draw = false;     // keep what a drawing of the trace needs
  std::string junction;  // trace only this one; empty: all
  std::vector<Part> without;
  bool has(Part part) const {
    for (const Part p : without) {
      if (p == part) return false;
    }
    return true;
  }
};

struct Examined {
  std::vector<job::Finding> findings;  // texts not yet given
  job::Proof proof;
};

Examined examine(const PlacedRoof& roof, const job::Survey& survey, const practice::Pack& pack,
                 const Options& options = {});

}  // namespace lapwright::check
