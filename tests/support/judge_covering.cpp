// Courses, rows and nails.
#include "judge_places.h"

#include <algorithm>
#include <map>

namespace lapwright::sample {

namespace {

std::string at(const job::Slope& slope, std::size_t k, const std::string& what, double got, double limit) {
  return slope.name + " course " + std::to_string(k) + ": " + what + ": " + std::to_string(got) +
         " against " + std::to_string(limit);
}

// The headlap that was asked for: the survey's, or the alternative that is marked.
double asked_headlap(const job::Slope& slope, const job::SetOut& out) {
  if (slope.covering.headlap) return mm(*slope.covering.headlap);
  for (const auto& a : out.headlaps) {
    if (a.chosen) return a.value;
  }
  return 0;
}

double dead_head(const Judged& job, const job::Covering& c) {
  const bool head = c.kind == job::CoveringKind::slate && c.nailing == job::Nailing::head;
  return head ? job.pack.number("slate.head_nail") : 0;
}

// The largest gauge that the survey sets for course k.
double own_most(const job::Covering& c, std::size_t k) {
  std::size_t begins = 0;
  for (const job::UnitSet& set : c.sets) {
    const std::size_t ends = set.courses ? begins + static_cast<std::size_t>(*set.courses) : SIZE_MAX;
    if (k < ends) return set.max_gauge ? mm(*set.max_gauge) : c.max_gauge ? mm(*c.max_gauge) : 1e9;
    begins = ends;
  }
  return c.max_gauge ? mm(*c.max_gauge) : 1e9;
}

// The gap of the wall beside [tail, next) on that hand; 0 where there is none.
double gap_beside(const Judged& job, const job::Slope& slope, job::Hand hand, double tail, double next) {
  for (const job::Junction& j : slope.junctions) {
    if (j.kind != job::JunctionKind::side || j.hand != hand) continue;
    const double to = j.to ? mm(*j.to) : mm(slope.rafter.value);
    if (mm(j.from) >= next - kNoise || tail + kNoise >= to) continue;
    // The widest place that is exposed beside the course.
    const double low = std::max(tail, mm(j.from));
    const double high = std::min(next, to);
    double widest = std::max(gap_at(job, j, low), gap_at(job, j, high));
    for (const job::GapAt& g : j.gaps) {
      const double at = g.at ? mm(*g.at) : 0;
      if (at > low && at < high) widest = std::max(widest, gap_at(job, j, at));
    }
    return widest;
  }
  return 0;
}

double joint_of(const Judged& job, const job::Covering& c) {
  if (c.joint) return mm(*c.joint);
  return job.pack.number(c.kind == job::CoveringKind::slate ? "joint.slate" : "joint.plain_tile");
}

}  // namespace

std::string courses_complaint(const Judged& job) {
  for (const job::Slope& slope : job.survey.slopes) {
    const job::SetOut* out = set_out_of(job, slope);
    if (out == nullptr) return "no set-out of " + slope.name;
    const CourseLines lines = course_lines(job, slope);
    if (lines.tails.empty()) continue;
    const double asked = asked_headlap(slope, *out);
    const double dead = dead_head(job, slope.covering);
    const std::size_t n = lines.lengths.size();
    if (static_cast<std::size_t>(out->courses) != n) return slope.name + ": courses and tails differ";
    if (lines.tails[0] != 0) return at(slope, 0, "first tail", lines.tails[0], 0);
    double least = 1e9;
    for (std::size_t k = 0; k < n; ++k) {
      const double margin = lines.tails[k + 1] - lines.tails[k];
      if (margin <= 0) return at(slope, k, "margin", margin, 0);
      const double limit = std::min(own_most(slope.covering, k), (lines.lengths[k] - asked - dead) / 2);
      if (margin > limit + kNoise) return at(slope, k, "gauge over its limit", margin, limit);
      if (k + 2 > n) continue;  // the top edge is above; nothing is lapped
      const double lap =
          lines.tails[k] + lines.lengths[k] - dead - (k + 2 < n ? lines.tails[k + 2] : lines.tails[n]);
      if (lap < asked - kNoise) return at(slope, k, "headlap under what was asked", lap, asked);
      least = std::min(least, lap);
    }
    if (n > 2 && slope.covering.sets.empty() && std::fabs(least - mm(out->headlap)) > kNoise) {
      return at(slope, 0, "headlap said", mm(out->headlap), least);
    }
    if (mm(out->headlap) < asked - kNoise) return at(slope, 0, "headlap said", mm(out->headlap), asked);
    if (std::fabs(mm(out->gauge) - (lines.tails[1] - lines.tails[0])) > kNoise)
      return slope.name + ": gauge said";
  }
  return {};
}

std::string rows_complaint(const Judged& job) {
  for (const job::Slope& slope : job.survey.slopes) {
    if (is_parted(job, slope)) {
      constexpr std::int64_t kPoints = 4000;
      if (std::string c = parted_rows_complaint(job, slope, kPoints); !c.empty()) return c;
      continue;
    }
    const CourseLines lines = course_lines(job, slope);
    const job::Covering& c = slope.covering;
    const double joint = joint_of(job, c);
    const double unit = mm(c.width.value);
    const bool slate = c.kind == job::CoveringKind::slate;
    // Two cuts that share what a unit and a half cannot fill are three quarters of a unit or more.
    const double narrowest =
        slate ? std::min(job.pack.number("bond.narrowest_slate"), 0.75 * unit) : unit / 2;
    std::size_t seen = 0;
    for (const job::Row& row : job.plan.rows) {
      if (row.slope != slope.name) continue;
      const auto k = static_cast<std::size_t>(row.course + 1);  // the under-course is 0
      if (k != seen++) return at(slope, k, "rows out of order", static_cast<double>(row.course), 0);
      const std::size_t course = k == 0 ? 0 : k - 1;
      const double tail = lines.tails[course];
      if (std::fabs(mm(row.tail) - tail) > kNoise) return at(slope, k, "tail", mm(row.tail), tail);
      const double length = k == 0 ? lines.under : std::min(lines.lengths[course], lines.tails.back() - tail);
      if (std::fabs(mm(row.length) - length) > kNoise) return at(slope, k, "length", mm(row.length), length);
      const double next = lines.tails[course + 1];
      const double left = gap_beside(job, slope, job::Hand::left, tail, next);
      const double right = mm(slope.width.value) - gap_beside(job, slope, job::Hand::right, tail, next);
      if (std::fabs(mm(row.from) - left) > kNoise) return at(slope, k, "left end", mm(row.from), left);
      double end = mm(row.from);
      std::int64_t count = 0;
      for (const job::UnitRun& run : row.widths) {
        if (run.count <= 0) return at(slope, k, "an empty run", 0, 0);
        if (mm(run.width) > unit * 1.5 + kNoise)
          return at(slope, k, "unit wider than one and a half", mm(run.width), unit);
        if (right - left > unit && mm(run.width) < narrowest - kNoise) {
          return at(slope, k, "narrow cut", mm(run.width), narrowest);
        }
        end += (mm(run.width) + joint) * static_cast<double>(run.count);
        count += run.count;
      }
      end -= joint;
      if (count == 0 || end > right + kNoise) return at(slope, k, "row too wide", end, right);
      if (right - end > joint + kNoise) return at(slope, k, "open gap at the end", right - end, joint);
      if (mm(row.nail_up) <= 0 || mm(row.nail_up) > mm(row.length) + kNoise) {
        return at(slope, k, "nails off the unit", mm(row.nail_up), mm(row.length));
      }
    }
    if (!lines.tails.empty() && seen != lines.tails.size()) return slope.name + ": rows are missing";
  }
  return {};
}

namespace {

struct Leg {
  std::int64_t course;
  Range u;
  Range s;
};

struct Nail {
  double u;
  std::int64_t unit;
  job::Hand side;
};

// The nails of the units that reach within `near` of either side of the slope; width 0: of all.
std::vector<Nail> nails_near_walls(const job::Row& row, double slope_width, double near) {
  std::vector<Nail> out;
  double at = mm(row.from);
  std::int64_t number = 0;
  for (const job::UnitRun& run : row.widths) {
    const double width = mm(run.width);
    const double in = std::min(mm(row.nail_in), width / 4);
    for (std::int64_t i = 0; i < run.count; ++i, ++number, at += width + mm(row.gap)) {
      if (slope_width > 0 && at > near && at + width < slope_width - near) continue;
      out.push_back({at + in, number, job::Hand::left});
      out.push_back({at + width - in, number, job::Hand::right});
    }
  }
  return out;
}

}  // namespace

std::string nails_complaint(const Judged& job) {
  constexpr double kHandCut = 3;
  std::map<std::string, std::vector<Leg>> legs;
  double widest = 0;
  for (const WallPlace& wall : walls_of(job)) {
    for (const Placed& p : placed_at(job, wall, "soaker")) {
      const Leg leg{p.course, range_of(p.panels[0], &geom::Vec3::x), range_of(p.panels[0], &geom::Vec3::y)};
      legs[wall.slope->name].push_back(leg);
      widest = std::max(widest, leg.u.high - leg.u.low);
    }
  }
  for (const job::Slope& slope : job.survey.slopes) {
    for (const job::Junction& j : slope.junctions) {
      if (j.kind != job::JunctionKind::stack) continue;
      WallPlace stack;
      stack.slope = &slope;
      stack.junction = &j;
      for (const Placed& p : placed_at(job, stack, "soaker")) {
        legs[slope.name].push_back(
            {p.course, range_of(p.panels[0], &geom::Vec3::x), range_of(p.panels[0], &geom::Vec3::y)});
      }
    }
  }
  for (const job::Row& row : job.plan.rows) {
    if (!row.nailed || row.course < 0 || legs[row.slope].empty()) continue;
    double slope_width = 0;
    for (const job::Slope& slope : job.survey.slopes) {
      if (slope.name != row.slope) continue;
      // Beside a stack any unit may be concerned.
      slope_width = is_parted(job, slope) ? 0 : mm(slope.width.value);
    }
    // Where the row goes on into the next, one unit lies in both, with one side's nails in each.
    const auto part_of_one = [&](const Nail& nail) {
      return std::any_of(job.plan.rows.begin(), job.plan.rows.end(), [&](const job::Row& other) {
        if (other.slope != row.slope || other.course != row.course || &other == &row) return false;
        return nail.side == job::Hand::left ? one_unit(other, row) : one_unit(row, other);
      });
    };
    const double s = mm(row.tail) + mm(row.nail_up);
    for (const Nail& nail : nails_near_walls(row, slope_width, widest + kHandCut)) {
      double depth = -1e9;  // how far within a soaker; below 0: clear
      for (const Leg& leg : legs[row.slope]) {
        if (leg.course > row.course) continue;
        depth = std::max(depth,
                         std::min({nail.u - leg.u.low, leg.u.high - nail.u, s - leg.s.low, leg.s.high - s}));
      }
      bool left_out = false;
      for (const auto& out : row.nails_left_out) {
        left_out = left_out || (out.unit == nail.unit && out.side == nail.side);
      }
      const std::string where =
          row.slope + " course " + std::to_string(row.course) + " unit " + std::to_string(nail.unit);
      const double up = mm(row.nail_up) / mm(row.length);
      const auto past = [&](const std::optional<job::Row::Rake>& rake, double sign) {
        return rake && sign * (nail.u - mm(rake->at_tail) - up * mm(rake->at_head - rake->at_tail)) > 0;
      };
      if (past(row.left_rake, -1) || past(row.right_rake, 1)) {
        if (!left_out) return where + ": nail where the unit is cut away";
        continue;
      }
      if (!left_out && depth > -kHandCut + kSmall)
        return where + ": nail through lead by " + std::to_string(depth);
      if (left_out && depth < -kHandCut - kSmall && !part_of_one(nail))
        return where + ": nail left out for nothing";
    }
    for (const auto& out : row.nails_left_out) {
      if (out.unit < 0) return row.slope + ": nail of no unit";
    }
  }
  return {};
}

}  // namespace lapwright::sample
