// The judge of the cutting list. It shares no code with what it judges: it knows the plan's nets and the
// yard, and takes the list at its word.
//
// It cuts every roll again, step by step, edge to edge; lays every piece where the list says and looks
// whether it is in its part and on no other; counts the pieces; adds up kilograms and money; and proves the
// strip bound again from its prices, in whole numbers, with a programme of its own.
#pragma once

#include <lapwright/job/plan.h>
#include <lapwright/job/yard.h>
#include <lapwright/practice/pack.h>

#include <string>
#include <vector>

namespace lapwright::cutcheck {

struct Complaint {
  std::string rule;   // "overlap", "missing", "wrong", "cut", "outside", "stock", "sum", "bound"
  std::string where;  // roll, mark, code
};

// Nothing, when all is well. REQUIRES plan.cutting.
std::vector<Complaint> check(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack);

}  // namespace lapwright::cutcheck
