// The part of a flashing that lies on profiled single-lap tiles beside a wall, to the far side of a roll.
//
//      wall │      cover
//           │  ╭─╮     ╭─╮     ╭─╮
//        gap│ ╱ · ╲   ╱ · ╲   ╱   ╲
//           ├───────────────┤
//                           far side of the second roll: gap + 1.75·p
//
// The survey says how far apart the rolls are and how deep, not where a tile's first roll stands: crowns are
// taken every roll pitch p, the first half a pitch in from the tile's edge, a roll a quarter pitch to each
// side of its crown.
//
// Developed over the rolls a sheet is longer than flat. A sine of depth d has, from a trough to a crown and
// on to the middle of its flank, a mean square of slope of (π·d/p)² / 2, so by Jensen's inequality its length
// is at most the flat one's times √(1 + (π·d/p)²/2): the blank is cut to that. Placed flat on the finished
// face the panel therefore overhangs the roll's far side; dressed down it does not.
//
// Properties: the cover never ends short of cover.width; it ends at the far side of a roll wherever the rolls
// are known; deeper rolls never take less lead.
#pragma once

#include "place.h"

#include <lapwright/geom/net.h>

#include <vector>

namespace lapwright::pieces {

struct RoofCover {
  Length flat;       // from the wall, along the roof
  Length developed;  // over the rolls
  Length gap;
  std::int64_t rolls_before = 0;  // whole rolls on the wall's side of the last one covered
  bool rolls_known = false;
};

// With its findings.
RoofCover roof_cover(const Place& place, job::JunctionPlan& plan);

// The net of a piece against the wall, its foot along y = 0 from the first point of the outline to the
// second, with a cover hinged there, and moved to the origin: up by the cover. Where the foot is shorter than
// a hand cuts (a piece that stands above the slope's top edge) the net is returned as it is.
struct WithCover {
  geom::Net net;
  Length moved;  // the foot's y
};
WithCover with_cover(geom::Net net, Length cover, Angle fold);

// "cover", "cover_developed" and, of a free edge of this length, "clips".
std::vector<job::Figure> cover_figures(const Place& place, const RoofCover& cover, Length edge);

std::int64_t clips_for(const Place& place, Length edge);
const practice::Rule& clip_spacing(const Place& place);

// How far pieces that lie on the roof lap: along the wall and down the slope, whichever asks for more.
Length lap_on_roof(const Place& place);

// What a work step says of the cover: "cover", "clips", "clip", "spacing".
void add_cover_params(const Place& place, const RoofCover& cover, Length edge, job::Params& params);

}  // namespace lapwright::pieces
