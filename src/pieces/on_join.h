// Where lead along a valley or hip lies: one hinge, on the line, and a panel on each slope.
//
// Nets are drawn for a line at the first slope's right end: x up the line, the hinge along it, the first
// slope's panel at greater y. For a line at its left end they are mirrored, and x runs down the line. Both
// panels lie in planes parallel to their slopes, as far below n = 0 as `below` says, and meet under the line.
#pragma once

#include <lapwright/geom/net.h>
#include <lapwright/job/join.h>
#include <lapwright/job/layout.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <array>
#include <span>
#include <string>

namespace lapwright::pieces {

struct JoinPlace {
  const job::Survey& survey;
  const job::JoinLine& line;
  std::array<const job::Slope*, 2> slopes;
  std::array<const job::SlopeLayout*, 2> layouts;
  const practice::Pack& pack;
  std::string name;  // "valley rear / wing"

  bool is_valley() const { return line.join->kind == job::JoinKind::valley; }
  double along_per_up() const;  // length on the line for 1 up the first slope
};

// A sheet `length` long with a side of `side` on each slope and, where `edge` is more than nought, an edge
// upturned square at the far side of each.
geom::Net join_net(const JoinPlace& place, Length length, Length side, Length edge);

// Where such a net lies, in the first slope's frame, when it starts `start` up the line.
geom::Frame join_frame(const JoinPlace& place, Length start, Length length, Length side, Length edge,
                       Length below = {});

// Kind, names, net, sizes and base point; no figures, code, count or placements yet.
job::Piece join_piece(std::string_view kind, const JoinPlace& place, Length length, Length side, Length edge);

}  // namespace lapwright::pieces
