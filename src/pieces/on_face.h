// How a piece's net is turned for the hand of its face, and where it then lies.
//
// Nets are drawn for a left-hand face: x along the foot line from its lower end, y towards the face (a leg on
// the roof) or up it (a flashing). For a right-hand face they are mirrored. Level faces are drawn with x from
// left to right and take no hand.
#pragma once

#include "place.h"

#include <lapwright/geom/net.h>

namespace lapwright::pieces {

bool is_mirrored(
    const job::Face& face);  // a right-hand side or skew face, or a level one with the roof above

geom::Net for_face(const geom::Net& net, const job::Face& face);
geom::GridPoint for_face(geom::GridPoint p, geom::Grid length, const job::Face& face);

// Where a net of extent `length` lies on the roof: it starts at `start` along the foot line, y = `leg` is the
// foot line, y = 0 lies `leg` away from it; `height` square to the roof above the plane of the soakers' legs.
geom::Frame on_roof(const Place& place, Length start, Length length, Length leg, Length height = {});

// Where it lies against the face: its x starts at `start` along the foot line, y = 0 stands `height` up the
// face.
geom::Frame on_wall(const Place& place, Length start, Length length, Length height);

// How far up the face a plane lies that is `above` the roof, square to it.
Length up_the_face(const Place& place, Length above);

}  // namespace lapwright::pieces
