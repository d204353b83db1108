// How a gutter falls, and what it costs: the roll where two falls part, the sole that widens as it rises, and
// how far its leg then lasts.
//
//            over, laid last          A sole that is raised by `rise` meets the roof `rise / tan(tilt)`
//            further
//          ╭─────╮                    out: there it is that much wider, and the leg above it shorter by
//          │core │╲                   `rise / sin(tilt)`. Where less than the least lap is left of the leg
//          the
//   ───────┘     └──┴─── splash       gutter cannot be built so.
//    under, laid first
#pragma once

#include "gutter_section.h"

#include <lapwright/job/plan.h>

#include <vector>

namespace lapwright::pieces {

// A timber core, as high as it is wide, half round at its top; lead goes up one side, over, and down the
// other.
struct Roll {
  Length core;
  Length under;   // of the sheet that is laid first, from where it goes up the core to its edge
  Length over;    // of the one laid over it, the same: right round the core and on over the sole
  Length beyond;  // of `over`, what a flat sheet has beyond the core's middle
};
Roll roll_of(const practice::Pack& pack);
std::vector<job::Figure> roll_figures(const practice::Pack& pack);

// Behind a stack that falls both ways: the rise of its middle, what it does to sole and leg there, and a
// finding where the leg no longer lasts.
struct Fall {
  Length rise;
  Length sole;  // at the middle
  Length leg;
};
Fall fall_to_both_sides(const Place& place, const GutterSection& section, Length past);
std::vector<job::Figure> fall_figures(const Place& place, const GutterSection& section, Length past);
void judge_fall_to_both_sides(const Place& place, const GutterSection& section, Length past,
                              std::vector<job::Finding>& findings);

// A gutter along a wall has one way out: down its own foot line. Where that falls too little its upper end
// has to be raised, and it widens.
void judge_fall_along(const Place& place, const GutterSection& section, std::vector<job::Finding>& findings);

}  // namespace lapwright::pieces
