// Where the steps of a brick wall fall: bed joints against the water line.
//
// In the wall's plane: a runs along the foot line from the wall's lower end, b stands square to it, and
// heights z are above the roof's finished face at a = 0, measured up the face, so that z = a·sin θ + b·cos θ,
// θ being the foot line's rise in the face (the pitch, at a plumb wall that runs up the slope). The water
// line is b = w, and w square to the roof. The wall's ends are plumb: its lower end meets the water line at a
// = w·tan θ, w / cos θ upright above the roof. A step's level edge lies in a bed joint, from the riser of the
// step below it to the joint's own place on the water line:
//
//      O──────────┐ step edge, in the joint at height z
//      │riser      ╲___ I  inner corner: on the water line, at a = (z − w·cos θ) / sin θ
//   ───I──────────────────── water line, b = w
//      ──────────────────── roof's finished face, b = 0
//
// A joint that lies below the water line at the lower end takes no step; the first that clears it takes a
// part step.
#pragma once

#include "place.h"

#include <lapwright/base/fault.h>

#include <optional>
#include <vector>

namespace lapwright::pieces {

struct Step {
  Length joint;   // height z of the bed joint that it turns into
  Length height;  // of the riser below its edge: from the water line (or the joint below) to the joint
  Length from;    // a on the water line where the step begins (the riser's foot)
  Length to;      // a on the water line where it ends; the last is cut at the wall's upper end
  bool turned_in = true;  // a part too short to fold keeps its edge straight
};

struct Steps {
  std::vector<Step> steps;  // bottom up; steps[i].to == steps[i + 1].from
  Length run;               // along the slope, from the wall's lower end to its upper
  Length water_line;        // w
  Length turn_in;
  Angle pitch;                      // of the foot line, in the face
  Length largest_height;            // over all steps
  std::int64_t joints_skipped = 0;  // below the water line at the foot
};

// The joints' heights that matter to this face: measured, or first_joint + n × course; up the face. Faults
// name the joints' JSON path: a list that stops below what the upper end needs, or that never clears the
// water line.
Result<std::vector<Length>> joint_heights(const Place& place);

// REQUIRES heights rising strictly and reaching past the upper end.
Steps fall_of_steps(const std::vector<Length>& heights, const Place& place);

// a on the water line of a step boundary: the wall's lower end (i = 0), or the end of the first i steps.
Length boundary(const Steps& steps, std::size_t i);

// How far a piece of the steps [first, last) reaches along a, as a blank: its foot begins at the wall's plumb
// lower end or square below a step boundary, and the last piece leans out to the wall's plumb upper end.
struct Reach {
  Length low;
  Length high;
};
Reach reach_of(const Steps& steps, std::size_t first, std::size_t last);

// Height of a piece's lowest point, square to the roof above its finished face: nothing, unless the piece
// begins so near the wall's upper end that the plumb end cuts its foot away.
Length foot_of(const Steps& steps, std::size_t first);

// Where the last step's edge meets the wall's plumb upper end, in (a, b).
struct WallPoint {
  Length a;
  Length b;
};
WallPoint upper_end_at(const Steps& steps, Length height);

}  // namespace lapwright::pieces
