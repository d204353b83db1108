// What stands in a slope's covering, and the rows that are left round it.
#pragma once

#include <lapwright/job/join.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <optional>
#include <vector>

namespace lapwright::setout {

// A stack: no units between `left` and `right` from `front` to `behind`, both of which leave the gap, or the
// gutter, that its lead needs. Those below it are cut at `front`; those above begin at `behind`, where any
// do.
struct Block {
  Length left;
  Length right;
  Length front;
  std::optional<Length> behind;
};

// A line that ends the rows at one side: a valley, a hip, a wall that runs askew.
struct Edge {
  job::Hand hand = job::Hand::left;  // left: the roof lies to the right of it
  Length from;                       // up the slope
  Length to;
  Length at_from;  // u where the units end, at `from`
  double drift = 0;
  Length at(Length s) const { return at_from + (s - from) * drift; }
};

struct Surroundings {
  std::vector<Block> blocks;  // left to right
  std::vector<Edge> edges;
};
Surroundings surroundings_of(const job::Survey& survey, std::size_t slope, const practice::Pack& pack);

// How units may be cut at a face.
struct CutLimits {
  Length narrowest;
  Length and_half;
  Length top_nail;  // of a unit cut at its head: nail this far below the cut
};

// The rows that are left of `row` (the course's units from side to side, exposed as far as `next_tail`) once
// everything around is taken out of it, left to right. Perps stay where they were; a cut narrower than
// allowed is made from its neighbour with it. `row` itself where nothing touches it. Properties: no unit
// reaches into a block or past an edge by more than a rake; widths are positive.
std::vector<job::Row> rows_around(const job::Row& row, Length next_tail, const Surroundings& around,
                                  const CutLimits& limits);

}  // namespace lapwright::setout
