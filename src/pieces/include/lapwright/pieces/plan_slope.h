// From the courses of a slope to every piece of lead at its junctions, what is doubtful or wrong about them,
// and the order to fit them in.
#pragma once

#include <lapwright/job/layout.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <vector>

namespace lapwright::pieces {

struct SlopePlan {
  std::vector<job::Piece> pieces;  // without marks: give_marks() numbers those of a whole job
  std::vector<job::Row> rows;      // the layout's, with the nails left out that would pierce lead
  std::vector<job::Finding> findings;
  std::vector<job::WorkStep> order_of_work;  // `mark` is still empty; `piece` below says which
  std::vector<std::int64_t> piece_of_step;   // index into `pieces`, −1 when the step fits none
};

// Faults (no_geometry) when a junction's measurements make no flashing, by its JSON path.
Result<SlopePlan> plan_slope(const job::Slope& slope, const job::SlopeLayout& layout, job::Exposure exposure,
                             const practice::Pack& pack);

// Merges pieces whose nets, code and place kind are the same, and numbers them: S1, S2 … soakers, F1 … step
// flashings, C1 … cover flashings, in the order of `plans`. Work steps get their marks.
void give_marks(std::vector<SlopePlan>& plans);

}  // namespace lapwright::pieces
