#include "order_of_work.h"

#include <lapwright/base/tolerance.h>

#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

// What the unit beside a wall is, and how it is nailed there.
struct UnitAtWall {
  std::string word;   // catalogue key
  std::string nails;  // catalogue key
  Length width;
};

UnitAtWall unit_at_wall(const job::Slope& slope, const job::Row& row, job::Hand hand) {
  const bool left = hand == job::Hand::left;
  const job::UnitRun& run = left ? row.widths.front() : row.widths.back();
  std::int64_t total = 0;
  for (const job::UnitRun& r : row.widths) total += r.count;
  const std::int64_t number = left ? 0 : total - 1;
  const Length unit = slope.covering.width.value;
  UnitAtWall out;
  out.width = run.width;
  if (run.width > unit * 1.25) {
    out.word = "unit.and_half";
  } else if (run.width < unit - tolerance::kGrid) {
    out.word = "unit.cut";
  } else {
    out.word = "unit.whole";
  }
  bool near_out = false;
  bool far_out = false;
  for (const auto& n : row.nails_left_out) {
    if (n.unit != number) continue;
    (n.side == hand ? near_out : far_out) = true;
  }
  if (!row.nailed) {
    out.nails = "nails.hung";
    return out;
  }
  out.nails = near_out && far_out ? "nails.none" : near_out ? "nails.far_side_only" : "nails.both";
  return out;
}

}  // namespace

void order_work(const job::Slope& slope, const job::SlopeLayout& layout,
                const std::vector<job::JunctionPlan>& junctions, const std::vector<std::size_t>& first_piece,
                SlopePlan& plan) {
  const auto add = [&](job::WorkStep step, std::int64_t piece) {
    plan.order_of_work.push_back(std::move(step));
    plan.piece_of_step.push_back(piece);
  };
  bool any_piece = false;
  for (const job::JunctionPlan& j : junctions) any_piece = any_piece || !j.pieces.empty();
  if (!any_piece) return;

  job::WorkStep start;
  start.slope = slope.name;
  start.step = "work.set_out";
  start.params = {{"courses", static_cast<double>(layout.courses.size()), ""},
                  {"gauge", layout.set_out.gauge.in_mm(), "mm"}};
  add(start, -1);
  if (!plan.rows.empty() && plan.rows.front().course == -1) {
    job::WorkStep under;
    under.slope = slope.name;
    under.course = -1;
    under.step = "work.under_course";
    under.params = {{"length", layout.under_length.in_mm(), "mm"}};
    add(under, -1);
  }
  for (const job::Row& row : plan.rows) {
    if (row.course < 0) continue;
    const auto k = static_cast<std::size_t>(row.course);
    for (std::size_t j = 0; j < junctions.size(); ++j) {
      if (k >= junctions[j].soaker_of_course.size() || junctions[j].soaker_of_course[k] < 0) continue;
      const job::Junction& junction = slope.junctions[j];
      const UnitAtWall unit = unit_at_wall(slope, row, junction.hand);
      job::WorkStep step;
      step.slope = slope.name;
      step.junction = junction.name;
      step.course = row.course;
      const job::HeadFixing fixing = junction.head_fixing.value_or(job::HeadFixing::hooked);
      const auto index = first_piece[j] + static_cast<std::size_t>(junctions[j].soaker_of_course[k]);
      const bool cut_at_top = plan.pieces[index].net.folds.size() < 2 && fixing == job::HeadFixing::hooked;
      step.step = row.course == 0 ? "work.course_first" : "work.course";
      step.params = {{"number", static_cast<double>(row.course + 1), ""},
                     {"fixing",
                      cut_at_top                                 ? "fixing.top"
                      : fixing == job::HeadFixing::hooked        ? "fixing.hooked"
                      : fixing == job::HeadFixing::to_the_batten ? "fixing.batten"
                                                                 : "fixing.flush",
                      "key"},
                     {"unit", unit.word, "key"},
                     {"width", unit.width.in_mm(), "mm"},
                     {"nails", unit.nails, "key"}};
      add(std::move(step), static_cast<std::int64_t>(index));
    }
  }
  for (std::size_t j = 0; j < junctions.size(); ++j) {
    for (std::size_t i = 0; i < junctions[j].work_after_courses.size(); ++i) {
      const std::int64_t piece = junctions[j].piece_of_work[i];
      add(junctions[j].work_after_courses[i],
          piece < 0 ? -1 : static_cast<std::int64_t>(first_piece[j]) + piece);
    }
  }
  job::WorkStep finish;
  finish.slope = slope.name;
  finish.step = "work.finish";
  add(finish, -1);
}

}  // namespace lapwright::pieces
