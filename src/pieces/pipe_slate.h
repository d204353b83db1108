// A pipe slate: a flat base with a hole where the pipe comes through, and a sleeve standing up from it.
//
//        s ^  +---------------------+   head, under the course above      sleeve, unrolled:
//          |  |                     |                                     ┌──────────────┐ level top
//          |  |        ___          |   head lap, above the pipe          │              │
//          |  |       /   \         |                                     │     ╭──╮     │ rises with
//          |  |      (     )        |   hole: d wide, d / cos θ long      │   ╭─╯  ╰─╮   │ the slope
//          |  |       \___/         |                                     └───╯      ╰───┘
//          |  +---------------------+   tail, on the course below         seam, at the lower side
//
// The hole is a polygon of as many corners as the sleeve has facets, each corner on the true ellipse, so that
// hole and sleeve meet edge to edge. The base is square: as wide as pipe and side laps, as long as what it
// covers below the pipe, the hole and the head lap, and never less than a usual slate. It lies on the course
// whose margin its tail ends in, and under the next one up, which is cut round the pipe; where that course's
// tail lies above the pipe, the head lap is counted from there.
//
// Properties: folded round, the sleeve's lower edge lies in the base's plane along the hole's edge; its top
// is level and stands pipe.sleeve above the base at the pipe's upper side; hole and lower edge are equally
// long.
#pragma once

#include "place.h"

namespace lapwright::pieces {

// REQUIRES a round face.
void plan_pipe_slate(const Place& place, job::JunctionPlan& plan);

}  // namespace lapwright::pieces
