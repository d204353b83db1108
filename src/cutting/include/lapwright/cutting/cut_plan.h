// The stage: pieces and yard in, cutting list out, in slices.
//
// Each code of lead is a problem of its own; they are worked through one after the other, each with a share
// of the effort by its pieces. Blanks are taken from the nets' own outlines, rounded up to whole mm; a piece
// stays whole. What cannot be cut is named and left out: no plan is refused for it. A piece of a junction
// that is planned `wrong` is left out, too: nobody shall cut it.
#pragma once

#include <lapwright/base/fault.h>
#include <lapwright/cutting/cutter.h>
#include <lapwright/job/plan.h>
#include <lapwright/job/yard.h>
#include <lapwright/practice/pack.h>

#include <cstdint>
#include <memory>

namespace lapwright::cutting {

// Effort 1 is about a second of one thread. 0: the first whole plan and its bound.
class CutPlan {
 public:
  CutPlan(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack, double effort);
  ~CutPlan();
  CutPlan(CutPlan&&) noexcept;
  CutPlan& operator=(CutPlan&&) noexcept;

  bool step();              // some milliseconds; false when done
  bool has_plan() const;    // result() is whole from here on
  double progress() const;  // 0 to 1

  // REQUIRES has_plan().
  job::Cutting result() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

// What the reader of a yard cannot see, as it knows no weights: a roll whose price is no more than its scrap
// brings. Whoever plans with such a yard would be told to buy lead in order to scrap it.
Faults faults_of(const job::Yard& yard, const practice::Pack& pack);

// What is wrong with, doubtful about or worth a note of a cutting list: pieces left out, and what would do;
// rolls that one person does not lift.
std::vector<job::Finding> findings_of(const job::Cutting& cutting, const job::Plan& plan,
                                      const job::Yard& yard, const practice::Pack& pack);

// The yard after this job: what was taken from the rack is gone, what is kept lies there.
job::Yard yard_after(const job::Yard& yard, const job::Cutting& cutting);

}  // namespace lapwright::cutting
