// Where two slopes meet: a valley, a hip or a ridge, as a line on plan, in both slopes and in space.
//
// A slope's bearing is the way that it looks on plan. Two slopes of different bearing meet in a valley where
// the ground lies between them, in a hip where the roof does; where their bearings are opposite, in a ridge.
// A slope with a valley at its right end looks, say, south (180) and its neighbour west (270); with a hip
// there, east (90). Where a bearing is missing the slopes are taken to meet square, and `assumed` says so;
// the first slope named then has the line at its right end.
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
// runs up the slope at `drift`: u(s) = (left ? 0 : width) + drift · s. A valley at the right end drifts to
// the right (the slope widens as it climbs), a hip there to the left.
struct JoinSide {
  std::size_t slope = 0;  // index in the survey
  Hand hand = Hand::right;
  double drift = 0;
  Angle to_eaves;  // on plan, between the line and this slope's eaves
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
// or hip. A ridge gives sides without drift.
std::optional<JoinLine> join_line(const Survey& survey, const Join& join);

// Every join that has a side on this slope, with the index of that side.
struct SlopeJoin {
  JoinLine line;
  std::size_t side = 0;
};
std::vector<SlopeJoin> joins_of(const Survey& survey, std::size_t slope);

}  // namespace lapwright::job
