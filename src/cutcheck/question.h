// One code's problem as the plan and the yard say it, in whole numbers: what every proof begins with.
#pragma once

#include <lapwright/job/plan.h>
#include <lapwright/job/yard.h>
#include <lapwright/practice/pack.h>

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace lapwright::cutcheck {

inline constexpr double kParts = 1000;  // money is counted in thousandths

struct Size {
  std::int64_t width = 0;  // with kerf, mm
  std::int64_t length = 0;
  std::int64_t cost = 0;
  std::int64_t most = -1;
};
struct Item {
  std::int64_t along = 0;
  std::int64_t across = 0;
  std::int64_t value = 0;
  std::int64_t copies = 0;
};
struct Question {
  std::vector<Size> sizes;
  std::vector<Item> items;  // both ways round
  std::int64_t keep_rate = 0;
  std::int64_t keep_long = 0;
  std::int64_t keep_short = 0;
  double pieces = 0;  // scrap worth of the pieces
  std::int64_t step = 1;
};

// Whole mm, rounded down.
std::int64_t whole(double mm);
// What a rectangle that is left is worth above its scrap.
std::int64_t credit(const Question& q, std::int64_t a, std::int64_t b);
Question question(const job::Plan& plan, const job::Yard& yard, const practice::Pack& pack,
                  const job::CutCode& code, const std::map<std::string, std::int64_t>& wanted);
// Every piece of the code has its own box in the list, no larger than its net asks for.
bool boxes_are_true(const job::Plan& plan, const job::CutCode& code,
                    const std::map<std::string, std::int64_t>& wanted);
// Raised to what sums of stock can cost.
std::int64_t rounded_up(const Question& q, std::int64_t bound);
// The least cost of whole rolls that are worth `must` together, each at most its worth; 0 where that says
// nothing.
std::int64_t in_whole_rolls(const Question& q, const std::vector<std::int64_t>& worths, std::int64_t must);

}  // namespace lapwright::cutcheck
