// From the courses of a slope to every piece of lead at its junctions, what is doubtful or wrong about them,
// and the order to fit them in.
#pragma once

#include <lapwright/job/layout.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/survey.h>
#include <lapwright/practice/pack.h>

#include <span>
#include <vector>

namespace lapwright::pieces {

struct SlopePlan {
  std::vector<job::Piece> pieces;  // without marks: give_marks() numbers those of a whole job
  std::vector<job::Row> rows;      // the layout's, with the nails left out that would pierce lead
  std::vector<job::Choice> choices;
  std::vector<job::Finding> findings;
  std::vector<job::WorkStep> order_of_work;  // `mark` is still empty; `piece` below says which
  std::vector<std::int64_t> piece_of_step;   // index into `pieces`, −1 when the step fits none
  // Of a join: the two slopes that it lies on, and how many of its steps come before any of their courses.
  std::vector<std::size_t> lies_on;
  std::size_t steps_before_courses = 0;
};

// The slope `survey.slopes[index]`, whose courses are `layouts[index]`: every face that stands on it, also
// those of a stack that another slope names. `layouts` has one entry a slope.
// Faults (no_geometry) when a junction's measurements make no flashing, by its JSON path.
Result<SlopePlan> plan_slope(const job::Survey& survey, std::span<const job::SlopeLayout> layouts,
                             std::size_t index, const practice::Pack& pack);

// The steps of a whole job in the order to take them: slope by slope, what lies under courses before them. A
// join's steps stand with its slopes: those before the courses at the beginning of the first of the two,
// those of a course with that course, the rest at the end of the second. `plans`: `slopes` slopes, then the
// joins.
std::vector<job::WorkStep> whole_order(const std::vector<SlopePlan>& plans, std::size_t slopes);

// Merges pieces whose nets, code and kind are the same, and numbers them: a letter for the kind (the table
// is in marks.cpp: S soakers, F step flashings, ...) and a count, in the order of `plans`. Work steps get
// their marks.
void give_marks(std::vector<SlopePlan>& plans);

}  // namespace lapwright::pieces
