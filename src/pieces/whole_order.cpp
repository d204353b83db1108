#include <lapwright/pieces/plan_slope.h>

#include <algorithm>
#include <iterator>
#include <utility>

namespace lapwright::pieces {

namespace {

using Steps = std::vector<job::WorkStep>;

// One slope's steps while those of its joins are put in among them.
struct Block {
  Steps steps;
  std::size_t begun = 0;  // after this many the courses may begin

  void before_courses(job::WorkStep step) {
    steps.insert(at(begun), std::move(step));
    ++begun;
  }
  void with_course(job::WorkStep step) {
    std::size_t after = begun;
    for (std::size_t i = begun; i < steps.size(); ++i) {
      constexpr std::int64_t kUnderCourse = -1;
      if (steps[i].course >= kUnderCourse && steps[i].course <= step.course) after = i + 1;
    }
    steps.insert(at(after), std::move(step));
  }
  void after_courses(job::WorkStep step) {
    const bool finished = !steps.empty() && steps.back().step == "work.finish";
    steps.insert(at(steps.size() - (finished ? 1 : 0)), std::move(step));
  }

 private:
  Steps::iterator at(std::size_t i) { return steps.begin() + static_cast<std::ptrdiff_t>(i); }
};

}  // namespace

std::vector<job::WorkStep> whole_order(const std::vector<SlopePlan>& plans, std::size_t slopes) {
  std::vector<Block> blocks(slopes);
  for (std::size_t i = 0; i < slopes; ++i) {
    blocks[i].steps = plans[i].order_of_work;
    const bool set_out = !blocks[i].steps.empty() && blocks[i].steps.front().step == "work.set_out";
    blocks[i].begun = set_out ? 1 : 0;
  }
  for (std::size_t j = slopes; j < plans.size(); ++j) {
    const SlopePlan& join = plans[j];
    if (join.lies_on.empty()) continue;
    const auto [lower, upper] = std::minmax_element(join.lies_on.begin(), join.lies_on.end());
    for (std::size_t i = 0; i < join.order_of_work.size(); ++i) {
      const job::WorkStep& step = join.order_of_work[i];
      if (i < join.steps_before_courses) {
        blocks[*lower].before_courses(step);
      } else if (step.course >= 0) {
        blocks[*lower].with_course(step);
      } else {
        blocks[*upper].after_courses(step);
      }
    }
  }
  Steps out;
  for (Block& block : blocks) std::move(block.steps.begin(), block.steps.end(), std::back_inserter(out));
  return out;
}

}  // namespace lapwright::pieces
