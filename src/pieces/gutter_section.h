// A back gutter cut through square to its face: upstand, level sole, leg up the slope; and where the lead
// past a stack's side comes down.
//
//        up |            _-- leg, in the plane n = 0
//           |       __--        near: the sole's edge at the face, `level` up it
//      near +------+ far        far: on n = 0, `far` up the roof from the foot line
//           |   _--
//      foot +--  n = 0
//
// At a skew face the sole lies level square to the face on plan and falls along it with the foot line.
#pragma once

#include "place.h"

namespace lapwright::pieces {

struct GutterSection {
  Length sole;           // the rule, or as much more as lifts it over the units beside the stack
  Length far;            // up the roof square to the foot line
  Length level;          // up the face, from the foot line in n = 0
  Angle tilt;            // between the sole and the leg
  Angle turn;            // between the sole and the upstand: 90 at a plumb face
  Length above;          // of the sole's near edge over the units' finished face, square to the roof
  geom::Vec3 level_out;  // level, square to the foot on plan, from the face to the roof
};

// REQUIRES a face that the roof lies above.
GutterSection gutter_section(const Place& place);

// How the lead past a stack's side turns down from the sole's near edge so that its own edge comes to lie on
// the units beside the stack. `least` is the length it has anyhow.
struct Spill {
  Length length;
  Angle down;  // from level
};
Spill spill_of(const GutterSection& section, Length least);

}  // namespace lapwright::pieces
