// Where two slopes meet: a valley, a hip or a ridge, as a line on plan, in both slopes and in space.
//
// A slope's bearing is the way that it looks on plan. Two slopes meet in a valley where water runs towards
// the line, in a hip where it runs away from it; where their bearings are opposite, in a ridge. A slope that
// looks south (180) has a neighbour that looks west (270) at its right end across a valley, and at its left
// end across a hip: each end as seen facing the roof from the ground. So of two slopes in a valley, the
// one whose neighbour's bearing is further round clockwise has the line at its right end; in a hip, at its
// left. The neighbour has it at its other end. Where a bearing is missing the slopes are taken to meet
// square, and `assumed` says so; the first slope named then has the line at its right end.
//
// Both eaves are at one level and meet in the corner that the line starts from.
//
// Source: geometry; tests/job derives every number again from two planes.
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/job/survey.h>

#include <array>
#include <optional>
#include <vector>

namespace lapwright::job {

// One slope's side of a valley or hip. The line starts at the eaves, at the slope's left or right end, and
// runs up the slope at `drift`: u(s) = (left ? 0 : width) + drift · s. Where slopes meet square, a valley at
// the right end drifts to the right (the slope widens as it climbs) and a hip there to the left. Where they
// meet at a blunt angle and one is much the steeper, the flatter one's side of the line leans the other way.
struct JoinSide {
  std::size_t slope = 0;  // index in the survey
  Hand hand = Hand::right;
  double drift = 0;
  Angle to_eaves;  // on plan, between the line and this slope's eaves: 0 to 90
  Length run;      // how far up this slope the line goes: to the lower of the two top edges
};

struct JoinLine {
  const Join* join = nullptr;
  std::array<JoinSide, 2> sides;
  Angle true_pitch;  // of the line itself, above level; 0 of a ridge
  Angle fold;     // how far a sheet lying on one slope turns to lie on the other; up in a valley, else down
  Length length;  // of the line, from the eaves to where it ends
  bool assumed = false;  // that the slopes meet square
};

// Empty where two slopes make no such line: bearings within a degree of each other, or opposite for a valley
// or hip, or not opposite for a ridge. A ridge gives sides without drift that run to their own top edges, and
// the shorter width as its length.
std::optional<JoinLine> join_line(const Survey& survey, const Join& join);

// Every join that has a side on this slope, with the index of that side.
struct SlopeJoin {
  JoinLine line;
  std::size_t side = 0;
};
std::vector<SlopeJoin> joins_of(const Survey& survey, std::size_t slope);

// Where the line crosses the slope `s` up it.
Length u_at(const JoinSide& side, const Slope& slope, Length s);

// The valley or hip whose line a stack's plan touches, if any: such a stack is bespoke work.
std::optional<SlopeJoin> stands_on_join(const Survey& survey, std::size_t slope, const Junction& stack);

}  // namespace lapwright::job
