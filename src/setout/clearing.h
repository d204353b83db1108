// Where the units of one course can lie: the course's strip of the slope, less what stands in it.
//
//      head  +---------+  | stack |  +-----+     a strip with a stack in it gives three clearings: two beside
//            |         |  +-------+  |     |     it, and one in front, cut short below its face
//            |         | +---------+ |     |
//      tail  +---------+ +---------+ +-----+
#pragma once

#include "obstacles.h"

#include <lapwright/base/units.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <cstddef>
#include <vector>

namespace lapwright::setout {

// The strip that one course's units take up, under cover and exposed.
struct Strip {
  Length tail;
  Length length;     // after the cut at the slope's top edge
  Length exposed;    // the next tail: what lies below it is seen
  Length supported;  // units that begin below this, above `exposed`, still serve under the next course's
  Length joint;

  Length head() const { return tail + length; }
};

// An end of a clearing: u at its tail and at its head.
struct End {
  Length at_tail;
  Length at_head;
  bool own = false;    // the slope's own square edge
  bool notch = false;  // the unit goes on past this end in the next clearing: it is cut round a corner
};

struct Clearing {
  Length tail;
  Length head;
  End left;
  End right;
  // A slanting end may pass the slope's own edge on its way: units do not.
  Length from;
  Length to;
};

// Where what is exposed of a course passes below a face, or above the gutter behind it, the units at the
// corners are cut round them and not parted: a joint there might stand over a joint of the course below, or
// under one of the course above. Joints that follow a corner lie under the lead in front, or over the lead
// behind.

// Asked for the strips of a slope in order, from the eaves up.
class Ground {
 public:
  Ground(const job::Slope& slope, const Obstacles& obstacles, const practice::Pack& pack);

  // From left to right; one above another where a block parts them.
  std::vector<Clearing> clearings(const Strip& strip);

  // The left end that the course's joints are counted from: the wall's gap, or the corner where the slope's
  // edge follows a valley or hip.
  Length own_edge(const Strip& strip) const;

 private:
  struct Divide;
  struct Column;

  End edge(const Strip& strip, job::Hand hand) const;
  Length gap_of(std::size_t junction, const Strip& strip, Length from, Length to) const;
  void let_in(const Strip& strip);
  std::vector<Divide> divides(const Strip& strip) const;
  std::vector<Column> columns(const Strip& strip, const std::vector<Divide>& divides) const;

  const job::Slope& slope_;
  const Obstacles& obstacles_;
  const practice::Pack& pack_;
  Length least_piece_;
  Length widest_gap_;
  std::size_t next_block_ = 0;
  std::size_t next_side_ = 0;
  std::vector<std::size_t> blocks_;  // those that stand in this strip
  std::vector<std::size_t> sides_;
};

}  // namespace lapwright::setout
