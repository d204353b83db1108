// A cheek that runs out: a wall beside a slope under something that hangs over it, as the cheek of a dormer
// under its own eaves. Going up, the clear height between roof and soffit falls; where less than
// cheek.least_clear is left nobody can work, so the detail ends there.
//
//            soffit ─────────────────────╮
//                      ┆              ╱  │
//       clear height   ┆  boxed    ╱     │ roof, seen from the side
//                      ┆ out    ╱
//       detail         ┆     ╱
//     ·················┆  ╱
//                     ╱┆ least_clear is left here
//
// From there to where the height is nothing (or the wall's end) the rest is boxed out, over a strip of lead
// that lies under the units and turns up the cheek as far as the soffit lets it. Our own judgement: no source
// prints it.
//
// Properties: the two parts make up the face; no lead of the boxed part stands above the soffit.
#pragma once

#include "place.h"

#include <optional>

namespace lapwright::pieces {

struct RunsOut {
  std::optional<job::Face> open;   // what is planned as usual; empty when nothing is left of it
  std::optional<job::Face> boxed;  // empty where the roof and the soffit meet at once
  Length low;                      // clear height at the boxed part's lower end
  Length high;                     // and at its upper end
};

// Empty where the clear height stays above the least, or nothing hangs over the face.
std::optional<RunsOut> where_it_runs_out(const Place& place);

// The same place with another part of its face.
Place at_part(const Place& place, const job::Face& part);

// The boxed part: its lead, the finding and the work. `place` is at the boxed part.
void plan_boxed_part(const Place& place, const RunsOut& runs_out, job::JunctionPlan& plan);

}  // namespace lapwright::pieces
