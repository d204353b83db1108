// The list to fit by: course by course from the eaves, then the flashings from the bottom up.
#pragma once

#include <lapwright/job/face.h>
#include <lapwright/pieces/plan_slope.h>

#include <vector>

namespace lapwright::pieces {

// What was planned at one face.
struct FaceWork {
  const job::Junction* junction = nullptr;
  job::Face face;
  job::JunctionPlan plan;
  std::size_t first_piece = 0;  // where its pieces begin in SlopePlan::pieces
};

// `plan.pieces` holds every face's pieces, and `plan.rows` has its nails settled.
void order_work(const job::Slope& slope, const job::SlopeLayout& layout, const std::vector<FaceWork>& faces,
                SlopePlan& plan);

}  // namespace lapwright::pieces
