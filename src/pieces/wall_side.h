// Where a side wall stands in its slope, and how its pieces are turned for the left or the right hand.
#pragma once

#include <lapwright/geom/net.h>
#include <lapwright/job/survey.h>

namespace lapwright::pieces {

struct WallSide {
  Length u;        // of the wall's face
  double inwards;  // +1 when the roof lies to the right of the wall (left hand), −1 otherwise
  Length from;     // up the slope
  Length to;
};

WallSide wall_side(const job::Slope& slope, const job::Junction& junction);

// A net drawn for a left-hand wall with x up the slope, as this wall needs it: unchanged for the left hand,
// mirrored for the right. `length` is the net's extent in x.
geom::Net for_hand(const geom::Net& left_hand_net, job::Hand hand);
geom::GridPoint for_hand(geom::GridPoint p, geom::Grid length, job::Hand hand);

// Where such a net lies on the roof: its tail end at `tail` up the slope, its free edge `leg` in from the
// wall.
geom::Frame on_roof(const WallSide& wall, Length tail, Length length, Length leg);

// Where such a net lies against the wall: its lower end at `start` up the slope, its foot `height` above the
// plane that the soakers lie in.
geom::Frame on_wall(const WallSide& wall, Length start, Length length, Length height);

}  // namespace lapwright::pieces
