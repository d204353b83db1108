// The strip bound, proven again.
#pragma once

#include <lapwright/job/plan.h>
#include <lapwright/job/yard.h>
#include <lapwright/practice/pack.h>

#include <cstdint>
#include <map>
#include <string>

namespace lapwright::cutcheck {

// The bound that the certificate of `code` proves, in pence or cents; below 0 where it proves nothing.
// `wanted`: pieces of each mark that the list cuts. `scrap` in pence or cents a kg.
double proven(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
              const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted);

// What the area of the pieces costs at the cheapest lead, the most that keeping the rest may bring taken off,
// raised to what sums of stock can cost; in pence or cents.
double by_area(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
               const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted);

// The bound on straight cutting from its own prices; below 0 where they prove nothing.
double straight(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
                const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted);

// The cheapest strip cutting by trying everything; below 0 where there is too much to try or the code allows
// no such search.
double searched(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
                const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted);

}  // namespace lapwright::cutcheck
