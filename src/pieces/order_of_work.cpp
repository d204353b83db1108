#include "order_of_work.h"

#include <lapwright/base/tolerance.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

namespace lapwright::pieces {

namespace {

// The unit that stands beside a face in a row, counted from the row's left end.
struct UnitThere {
  std::int64_t number = 0;
  Length width;
};

// The one whose edge is nearest to the face at `u`, on the roof's side of it.
std::optional<UnitThere> unit_beside(const job::Row& row, Length u, job::Hand hand) {
  std::optional<UnitThere> best;
  Length nearest;
  Length left = row.from;
  std::int64_t number = 0;
  for (const job::UnitRun& run : row.widths) {
    const Length step = run.width + row.gap;
    const auto consider = [&](std::int64_t i) {
      const Length at = left + step * static_cast<double>(i);
      const Length edge = hand == job::Hand::left ? at : at + run.width;
      const Length away = abs(edge - u);
      if (!best || away < nearest) {
        best = UnitThere{number + i, run.width};
        nearest = away;
      }
    };
    // Of equal units only those around the face can be nearest.
    const auto there = static_cast<std::int64_t>((u - left) / step);
    for (std::int64_t i = there - 1; i <= there + 1; ++i)
      consider(std::clamp<std::int64_t>(i, 0, run.count - 1));
    left += step * static_cast<double>(run.count);
    number += run.count;
  }
  return best;
}

// What the unit beside a wall is, and how it is nailed there.
struct UnitAtWall {
  std::string word;   // catalogue key
  std::string nails;  // catalogue key
  Length width;
};

UnitAtWall unit_at_wall(const job::Slope& slope, const job::Row& row, const UnitThere& there,
                        job::Hand hand) {
  const Length unit = slope.covering.width.value;
  UnitAtWall out;
  out.width = there.width;
  if (there.width > unit * 1.25) {
    out.word = "unit.and_half";
  } else if (there.width < unit - tolerance::kGrid) {
    out.word = "unit.cut";
  } else {
    out.word = "unit.whole";
  }
  bool near_out = false;
  bool far_out = false;
  for (const auto& n : row.nails_left_out) {
    if (n.unit != there.number) continue;
    (n.side == hand ? near_out : far_out) = true;
  }
  if (!row.nailed) {
    out.nails = "nails.hung";
    return out;
  }
  out.nails = near_out && far_out ? "nails.none" : near_out ? "nails.far_side_only" : "nails.both";
  return out;
}

// The unit of this course that stands beside the face, in whichever of the course's rows it is.
UnitAtWall beside_face(const job::Slope& slope, const SlopePlan& plan, std::int64_t course,
                       const job::Face& face) {
  const job::Row* best = nullptr;
  std::optional<UnitThere> there;
  Length nearest;
  const auto first = std::lower_bound(plan.rows.begin(), plan.rows.end(), course,
                                      [](const job::Row& r, std::int64_t c) { return r.course < c; });
  for (auto at = first; at != plan.rows.end() && at->course == course; ++at) {
    const job::Row& row = *at;
    // Where the face stands beside this course.
    const Length run = face.to.s - face.from.s;
    const double t = run > Length{} ? (row.tail - face.from.s) / run : 0.0;
    const Length u = face.from.u + (face.to.u - face.from.u) * std::clamp(t, 0.0, 1.0);
    const auto unit = unit_beside(row, u, face.hand);
    if (!unit) continue;
    Length end = row.from;
    for (const job::UnitRun& r : row.widths) end += (r.width + row.gap) * static_cast<double>(r.count);
    const Length away = face.hand == job::Hand::left ? abs(row.from - u) : abs(end - row.gap - u);
    if (best == nullptr || away < nearest) {
      best = &row;
      there = unit;
      nearest = away;
    }
  }
  return best == nullptr ? UnitAtWall{"unit.whole", "nails.both", slope.covering.width.value}
                         : unit_at_wall(slope, *best, *there, face.hand);
}

}  // namespace

void order_work(const job::Slope& slope, const job::SlopeLayout& layout, const std::vector<FaceWork>& faces,
                SlopePlan& plan) {
  const auto add = [&](job::WorkStep step, std::int64_t piece) {
    plan.order_of_work.push_back(std::move(step));
    plan.piece_of_step.push_back(piece);
  };
  const bool any_piece =
      std::any_of(plan.pieces.begin(), plan.pieces.end(), [](const job::Piece& p) { return !p.wrong; });
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
  const auto courses = static_cast<std::int64_t>(layout.courses.size());
  const auto add_before = [&](std::int64_t course) {
    for (const FaceWork& face : faces) {
      for (const auto& before : face.plan.work_before_course) {
        const bool now = course < courses ? before.course == course : before.course >= courses;
        if (!now) continue;
        job::WorkStep step = before.step;
        if (course < courses) step.course = course;
        add(std::move(step),
            before.piece < 0 ? -1 : static_cast<std::int64_t>(face.first_piece) + before.piece);
      }
    }
  };
  for (std::int64_t course = 0; course < courses; ++course) {
    add_before(course);
    const auto k = static_cast<std::size_t>(course);
    for (const FaceWork& face : faces) {
      if (k >= face.plan.soaker_of_course.size() || face.plan.soaker_of_course[k] < 0) continue;
      const job::Junction& junction = *face.junction;
      const UnitAtWall unit = beside_face(slope, plan, course, face.face);
      job::WorkStep step;
      step.slope = slope.name;
      step.junction = junction.name;
      step.course = course;
      const job::HeadFixing fixing = junction.head_fixing.value_or(job::HeadFixing::hooked);
      const auto index = face.first_piece + static_cast<std::size_t>(face.plan.soaker_of_course[k]);
      const bool cut_at_top = plan.pieces[index].net.folds.size() < 2 && fixing == job::HeadFixing::hooked;
      const bool has_face = !face.face.name.empty();
      step.step = course == 0 ? "work.course_first" : has_face ? "work.course_at_face" : "work.course";
      step.params = {{"number", static_cast<double>(course + 1), ""},
                     {"fixing",
                      cut_at_top                                 ? "fixing.top"
                      : fixing == job::HeadFixing::hooked        ? "fixing.hooked"
                      : fixing == job::HeadFixing::to_the_batten ? "fixing.batten"
                                                                 : "fixing.flush",
                      "key"},
                     {"unit", unit.word, "key"},
                     {"width", unit.width.in_mm(), "mm"},
                     {"nails", unit.nails, "key"}};
      if (has_face) step.params.push_back({"face", face.face.name, ""});
      add(std::move(step), static_cast<std::int64_t>(index));
    }
  }
  add_before(courses);
  for (const FaceWork& face : faces) {
    for (std::size_t i = 0; i < face.plan.work_after_courses.size(); ++i) {
      const std::int64_t piece = face.plan.piece_of_work[i];
      add(face.plan.work_after_courses[i],
          piece < 0 ? -1 : static_cast<std::int64_t>(face.first_piece) + piece);
    }
  }
  job::WorkStep finish;
  finish.slope = slope.name;
  finish.step = "work.finish";
  add(finish, -1);
}

}  // namespace lapwright::pieces
