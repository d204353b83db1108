// Where water is traced: one site for each junction, with as much of the covering around it as can matter,
// and the same covering without any lead, its ends at the masonry sealed, to hold it against.
#pragma once

#include <lapwright/check/placed.h>
#include <lapwright/check/trace.h>

#include <string>
#include <vector>

namespace lapwright::check {

// Owner of a sheet that is neither a unit nor lead: what ends the slope at its top.
inline constexpr std::size_t kNobody = static_cast<std::size_t>(-1);

struct Site {
  std::string junction;
  Traced traced;
  // Of every sheet of `traced`, by its owner: below the number of units a unit, else a lead.
  std::vector<const PlacedUnit*> units;
  std::vector<const PlacedLead*> leads;
  double run = 0;  // of the longest face up the slope, or of the roof shown
  std::int64_t courses = 0;
  bool sealed_matters = false;  // the sealed covering is worth tracing: a face runs up the slope
  Traced sealed;
};

// Every junction of the slope that has a face or a pipe, in the survey's order.
std::vector<Site> sites_of(const PlacedSlope& slope);

// A field of the covering alone: the slope's own tails and lengths, whole units in half bond.
Traced plain_field(const PlacedSlope& slope);

// How far units stop from the face, at the widest.
double gap_beside(const PlacedSlope& slope, const PlacedFace& face);

}  // namespace lapwright::check
