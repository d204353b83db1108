// The list to fit by: course by course from the eaves, then the flashings from the bottom up.
#pragma once

#include <lapwright/pieces/plan_slope.h>

#include <vector>

namespace lapwright::pieces {

// `junctions[i]` was planned for slope.junctions[i]; `first_piece[i]` is where its pieces begin in
// plan.pieces. `plan.rows` must already have its nails settled.
void order_work(const job::Slope& slope, const job::SlopeLayout& layout,
                const std::vector<job::JunctionPlan>& junctions, const std::vector<std::size_t>& first_piece,
                SlopePlan& plan);

}  // namespace lapwright::pieces
