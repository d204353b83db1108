// What stands on a slope, and what bounds it, as its courses meet it.
//
// Three shapes are enough. A *block* is what no unit crosses between two upright lines: a stack with the
// gutter behind it, or whatever lies behind a level wall. A *side* is a face that runs up the slope, straight
// or askew, with the roof on one hand of it. The slope's own two *edges* are square, with walls beside them
// or none, or follow a valley or a hip. A wall on top of the slope only ends it; a pipe is cut round.
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/job/face.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace lapwright::setout {

// Further than any roof reaches: of a block without an end on that hand.
inline constexpr Length kFarAway = Length::mm(1e9);

struct Block {
  Length left;
  Length right;
  Length front;  // its lowest face
  Length back;   // its highest
  Length begin;  // where units above it may begin: over the gutter behind it
  bool has_front = true;
  std::size_t junction = 0;
};

struct Side {
  job::Hand hand = job::Hand::left;  // as a face's: left, the roof lies towards greater u
  std::vector<job::FootPoint> foot;  // upwards
  // Whether its line comes from the slope's outline, so that there is no roof behind it. Behind one that
  // begins and ends within the slope the roof goes on, unless another face looks the other way (a dormer's
  // cheeks).
  bool bounds = false;
  std::size_t junction = 0;
};

// A wall along one of the slope's own square edges.
struct EdgeWall {
  job::Hand hand = job::Hand::left;
  Length from;
  Length to;
  std::size_t junction = 0;
};

// A slope's edge that follows a valley or a hip: u(s) = corner + drift·s up to `run`, upright above it. Units
// stop `clear` short of it, square to the line.
struct JoinEdge {
  double drift = 0;
  Length corner;
  Length run;
  Length clear;

  Length at(Length s) const { return corner + min(s, run) * drift; }
};

struct Obstacles {
  std::vector<job::Junction> junctions;  // the slope's own, then parts of stacks from across the ridge
  std::vector<Block> blocks;
  std::vector<Side> sides;
  std::vector<EdgeWall> walls;
  std::array<std::optional<JoinEdge>, 2> joins;  // left, right

  // Where each junction's gap matters, up the slope; `from` not below `to`: nowhere.
  struct Reach {
    Length from;
    Length to;
  };
  std::vector<Reach> reaches;
};

Obstacles obstacles_of(const job::Survey& survey, std::size_t slope, const practice::Pack& pack);

}  // namespace lapwright::setout
