// Rows of slopes that something stands on: judged point by point, from the survey's own measurements.
#include "judge_places.h"

#include <lapwright/base/generator.h>
#include <lapwright/job/join.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>

namespace lapwright::sample {

namespace {

struct Point {
  double u = 0;
  double s = 0;
};

struct Box {
  double left, right, front, back;
  double gutter;  // the units behind begin here
  double gap;
};

// A stretch of a wall on a line, as it was walked.
struct Stretch {
  Point a;
  Point b;
  double low, high;  // of its whole line, up the slope
  bool bounds;       // its line comes from the slope's outline
};

double gap_of(const Judged& job, const job::Slope& slope, const job::Junction& j) {
  const bool gutter = j.detail ? *j.detail == job::Detail::secret_gutter
                               : slope.covering.kind == job::CoveringKind::flat_tile;
  if (j.gaps.empty() && gutter) return job.pack.number("secret_gutter.unit_gap");
  return widest_gap(job, j);
}

class Roof {
 public:
  Roof(const Judged& job, const job::Slope& slope) : job_(job), slope_(slope) {
    cosine_ = std::cos(slope.pitch.value.in_degrees() * kRadian);
    top_ = mm(slope.rafter.value);
    width_ = mm(slope.width.value);
    for (const job::Junction& j : slope.junctions) {
      if (j.kind == job::JunctionKind::stack) {
        const double front = mm(*j.front);
        const double back = j.across ? top_ : front + mm(*j.depth) / cosine_;
        add_box(j, mm(*j.at), front, back, !j.across);
      }
      if (j.kind == job::JunctionKind::wall) add_line(j);
      if (j.kind == job::JunctionKind::side) edge_gap_ = std::max(edge_gap_, gap_of(job, slope, j));
    }
    for (const job::Slope& other : job.survey.slopes) {
      for (const job::Junction& j : other.junctions) {
        if (j.kind != job::JunctionKind::stack || j.across != slope.name) continue;
        const double there = std::cos(other.pitch.value.in_degrees() * kRadian);
        const double here = (mm(*j.depth) - (mm(other.rafter.value) - mm(*j.front)) * there) / cosine_;
        if (here > 0.001) add_box(j, width_ - mm(*j.at), top_ - here, top_, false);
      }
    }
    for (std::size_t i = 0; i < job.survey.slopes.size(); ++i) {
      if (&job.survey.slopes[i] == &slope) joins_ = job::joins_of(job.survey, i);
    }
    std::erase_if(joins_, [](const job::SlopeJoin& j) { return j.line.join->kind == job::JoinKind::ridge; });
  }

  bool is_parted() const { return !boxes_.empty() || !stretches_.empty() || !joins_.empty(); }
  double top() const { return top_; }
  double width() const { return width_; }
  const std::vector<Box>& boxes() const { return boxes_; }

  // How far within masonry, or off the slope; below 0: on the roof, that far from anything.
  double within_masonry(Point p) const {
    double depth = std::max({-p.s, p.s - top_, edge_depth(p)});
    for (const Box& b : boxes_)
      depth = std::max(depth, std::min({p.u - b.left, b.right - p.u, p.s - b.front, b.back - p.s}));
    return std::max(depth, behind_line(p));
  }

  // The same of where nothing is laid: gutters and the clear width of a valley too. The distance is to the
  // nearest place where units may end.
  double off_units(Point p) const {
    double depth = within_masonry(p);
    for (const Box& b : boxes_)
      depth = std::max(depth, std::min({p.u - b.left, b.right - p.u, p.s - b.front, b.gutter - p.s}));
    for (const Stretch& t : stretches_) {
      if (t.a.s != t.b.s || t.b.u >= t.a.u) continue;  // walked to the left, the roof is above it
      const double gutter = job_.pack.number("back_gutter.sole") / cosine_;
      depth = std::max(depth, std::min({p.u - t.b.u, t.a.u - p.u, p.s - t.a.s, t.a.s + gutter - p.s}));
    }
    return depth;
  }

  // Under an apron's ends, or above a back gutter's: joints there are the lead's affair.
  bool over_lead(Point p, double below) const {
    const double past = 100;
    const double leg = job_.pack.number("back_gutter.leg");
    return std::any_of(boxes_.begin(), boxes_.end(), [&](const Box& b) {
      const bool in_front = p.s < b.front && p.s > b.front - below;
      const bool behind = p.s > b.gutter && p.s < b.gutter + leg;
      return (in_front || behind) && p.u > b.left - past && p.u < b.right + past;
    });
  }

  // As far up as every valley and hip on this slope is known to go.
  double joins_end() const {
    double end = 1e9;
    for (const job::SlopeJoin& j : joins_) {
      const double run = mm(j.line.sides[j.side].run);
      if (run < top_ - 0.001) end = std::min(end, run);
    }
    return end;
  }

  double widest_gap_here() const { return std::max(gap_, edge_gap_); }

 private:
  void add_box(const job::Junction& j, double at, double front, double back, bool gutter) {
    const double half = mm(*j.width) / 2;
    const double sole = gutter ? job_.pack.number("back_gutter.sole") / cosine_ : 0;
    const double gap = gap_of(job_, slope_, j);
    boxes_.push_back({at - half, at + half, front, back, back + sole, gap});
    gap_ = std::max(gap_, gap);
  }

  void add_line(const job::Junction& j) {
    double low = 1e9;
    double high = -1e9;
    for (const auto& p : j.line) {
      low = std::min(low, mm(p.s));
      high = std::max(high, mm(p.s));
    }
    const double gap = gap_of(job_, slope_, j);
    gap_ = std::max(gap_, gap);
    const auto outline = [&](const job::Junction::LinePoint& p) {
      return mm(p.u) == 0 || mm(p.u) == width_ || mm(p.s) == 0 || mm(p.s) == top_;
    };
    const bool bounds = outline(j.line.front()) || outline(j.line.back());
    for (std::size_t i = 0; i + 1 < j.line.size(); ++i) {
      stretches_.push_back({{mm(j.line[i].u), mm(j.line[i].s)},
                            {mm(j.line[i + 1].u), mm(j.line[i + 1].s)},
                            low,
                            high,
                            bounds});
    }
  }

  // Past the slope's left or right edge, square to it.
  double edge_depth(Point p) const {
    double left = -p.u;
    double right = p.u - width_;
    for (const job::SlopeJoin& j : joins_) {
      const job::JoinSide& side = j.line.sides[j.side];
      const double s = std::min(std::max(p.s, 0.0), mm(side.run));
      const double square = std::sqrt(1 + side.drift * side.drift);
      const double clear = clear_of(j);
      if (side.hand == job::Hand::left) {
        left = (side.drift * s - p.u) / square + clear;
      } else {
        right = (p.u - width_ - side.drift * s) / square + clear;
      }
    }
    return std::max(left, right);
  }

  // Half the clear width of an open valley (NHBC Standards 7.2.21: 100, below 30 degrees 125).
  double clear_of(const job::SlopeJoin& j) const {
    const job::Join& join = *j.line.join;
    if (join.kind != job::JoinKind::valley || join.detail == job::JoinDetail::mitred) return 0;
    bool flat = false;
    for (const job::JoinSide& side : j.line.sides) {
      const auto& pitch = job_.survey.slopes[side.slope].pitch;
      flat = flat || pitch.value.in_degrees() - pitch.spread.in_degrees() < 30;
    }
    return flat ? 62.5 : 50;
  }

  // The back of a wall is seen when the nearest one to the left, or right, or below, or above looks away.
  double behind_line(Point p) const {
    double left = 1e9;
    double right = 1e9;
    bool left_hides = false;
    bool right_hides = false;
    bool left_bounds = false;
    bool right_bounds = false;
    bool hidden = false;
    double nearest = 1e9;
    for (const Stretch& t : stretches_) {
      const double run = t.b.u - t.a.u;
      const double rise = t.b.s - t.a.s;
      // The roof is on the right as it is walked.
      const double length = std::sqrt(run * run + rise * rise);
      const double f = ((p.u - t.a.u) * run + (p.s - t.a.s) * rise) / (length * length);
      const double g = std::min(std::max(f, 0.0), 1.0);
      const double du = p.u - t.a.u - g * run;
      const double ds = p.s - t.a.s - g * rise;
      nearest = std::min(nearest, std::sqrt(du * du + ds * ds));
      if (std::fabs(rise) > 0.001 && p.s >= std::min(t.a.s, t.b.s) && p.s <= std::max(t.a.s, t.b.s)) {
        const double off = p.u - (t.a.u + run * (p.s - t.a.s) / rise);
        const bool roof_to_right = rise > 0;
        if (off >= 0 && off < left) {
          left = off;
          left_hides = !roof_to_right;
          left_bounds = t.bounds;
        }
        if (off <= 0 && -off < right) {
          right = -off;
          right_hides = roof_to_right;
          right_bounds = t.bounds;
        }
      } else if (std::fabs(rise) <= 0.001 && p.u >= std::min(t.a.u, t.b.u) && p.u <= std::max(t.a.u, t.b.u)) {
        const bool roof_below = run > 0;
        const bool to_the_end = roof_below ? t.high <= t.a.s + 0.001 : t.low >= t.a.s - 0.001;
        if (roof_below && p.s > t.a.s && (to_the_end || p.s < t.high)) hidden = true;
        if (!roof_below && p.s < t.a.s && (to_the_end || p.s > t.low)) hidden = true;
      }
    }
    if (stretches_.empty()) return -1e9;
    hidden =
        hidden || (left_hides && right_hides) || (left_hides && left_bounds) || (right_hides && right_bounds);
    return hidden ? nearest : -nearest;
  }

  const Judged& job_;
  const job::Slope& slope_;
  double cosine_ = 1;
  double top_ = 0;
  double width_ = 0;
  double gap_ = 0;
  double edge_gap_ = 0;
  std::vector<Box> boxes_;
  std::vector<Stretch> stretches_;
  std::vector<job::SlopeJoin> joins_;
};

double line_at(const job::Row::Rake& rake, const job::Row& row, double s) {
  return mm(rake.at_tail) + (mm(rake.at_head) - mm(rake.at_tail)) * (s - mm(row.tail)) / mm(row.length);
}

enum class Lies { off, in_joint, on_unit };

Lies lies(const job::Row& row, Point p) {
  if (p.s < mm(row.tail) || p.s > mm(row.tail) + mm(row.length)) return Lies::off;
  if (row.left_rake && p.u < line_at(*row.left_rake, row, p.s)) return Lies::off;
  if (row.right_rake && p.u > line_at(*row.right_rake, row, p.s)) return Lies::off;
  double at = mm(row.from);
  if (p.u < at) return Lies::off;
  const double gap = mm(row.gap);
  for (std::size_t i = 0; i < row.widths.size(); ++i) {
    const double width = mm(row.widths[i].width);
    const auto count = static_cast<double>(row.widths[i].count);
    const double end = at + count * (width + gap);
    if (p.u < end) {
      const double within = std::fmod(p.u - at, width + gap);
      if (within <= width) return Lies::on_unit;
      const bool last = i + 1 == row.widths.size() && p.u >= end - gap;
      return last ? Lies::off : Lies::in_joint;
    }
    at = end;
  }
  return Lies::off;
}

std::string at_point(const job::Slope& slope, Point p, const std::string& what) {
  return slope.name + " at (" + std::to_string(p.u) + ", " + std::to_string(p.s) + "): " + what;
}

// Rows of one course that lie over each other.
std::string overlap_complaint(const job::Slope& slope, const std::vector<const job::Row*>& rows) {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (std::size_t k = i + 1; k < rows.size() && rows[k]->course == rows[i]->course; ++k) {
      const job::Row& a = *rows[i];
      const job::Row& b = *rows[k];
      const double low = std::max(mm(a.tail), mm(b.tail));
      const double high = std::min(mm(a.tail + a.length), mm(b.tail + b.length));
      if (high - low < 0.01) continue;
      for (const double s : {low + 0.005, (low + high) / 2, high - 0.005}) {
        const auto left = [&](const job::Row& r) {
          return r.left_rake ? std::max(mm(r.from), line_at(*r.left_rake, r, s)) : mm(r.from);
        };
        const auto right = [&](const job::Row& r) {
          return r.right_rake ? std::min(end_of(r), line_at(*r.right_rake, r, s)) : end_of(r);
        };
        const double over = std::min(right(a), right(b)) - std::max(left(a), left(b));
        if (over > kSmall)
          return at_point(
              slope, {std::max(left(a), left(b)), s},
              "rows of course " + std::to_string(a.course) + " overlap by " + std::to_string(over));
      }
    }
  }
  return {};
}

std::string widths_complaint(const Judged& job, const job::Slope& slope,
                             const std::vector<const job::Row*>& rows) {
  const double unit = mm(slope.covering.width.value);
  const bool slate = slope.covering.kind == job::CoveringKind::slate;
  const double narrowest = slate ? std::min(job.pack.number("bond.narrowest_slate"), 0.75 * unit) : unit / 2;
  for (const job::Row* row : rows) {
    const std::string where = slope.name + " course " + std::to_string(row->course) + ": ";
    if (mm(row->length) <= 0) return where + "no length";
    if (mm(row->nail_up) <= 0 || mm(row->nail_up) > mm(row->length) + kNoise)
      return where + "nails off the unit";
    std::int64_t count = 0;
    for (const job::UnitRun& run : row->widths) count += run.count;
    if (count == 0) return where + "a row without units";
    // A unit cut round a corner lies in two rows, without a joint between.
    bool left_goes_on = false;
    bool right_goes_on = false;
    for (const job::Row* other : rows) {
      if (other == row || other->course != row->course) continue;
      left_goes_on = left_goes_on || one_unit(*other, *row);
      right_goes_on = right_goes_on || one_unit(*row, *other);
    }
    std::int64_t number = 0;
    for (const job::UnitRun& run : row->widths) {
      const double width = mm(run.width);
      if (run.count <= 0 || width <= 0) return where + "an empty run";
      if (width > unit * 1.5 + kNoise) return where + "unit wider than one and a half";
      const bool goes_on =
          run.count == 1 && ((left_goes_on && number == 0) || (right_goes_on && number == count - 1));
      if (count > 1 && !goes_on && width < narrowest - kNoise)
        return where + "narrow cut of " + std::to_string(width);
      number += run.count;
    }
  }
  return {};
}

}  // namespace

double end_of(const job::Row& row) {
  double at = mm(row.from);
  for (const job::UnitRun& run : row.widths) at += static_cast<double>(run.count) * mm(run.width + row.gap);
  return at - mm(row.gap);
}

bool one_unit(const job::Row& left, const job::Row& right) {
  if (!left.right_rake || !right.left_rake)
    return !left.right_rake && !right.left_rake && std::fabs(end_of(left) - mm(right.from)) < kSmall;
  const double s = std::max(mm(left.tail), mm(right.tail));
  const double high = std::min(mm(left.tail + left.length), mm(right.tail + right.length));
  const auto apart = [&](double at) {
    return std::fabs(line_at(*left.right_rake, left, at) - line_at(*right.left_rake, right, at));
  };
  return apart(s) < kSmall && apart(high) < kSmall;
}

bool is_parted(const Judged& job, const job::Slope& slope) {
  return Roof(job, slope).is_parted();
}

std::string parted_rows_complaint(const Judged& job, const job::Slope& slope, std::int64_t points) {
  const Roof roof(job, slope);
  std::vector<const job::Row*> rows;
  for (const job::Row& row : job.plan.rows) {
    if (row.slope != slope.name) continue;
    if (!rows.empty() && row.course < rows.back()->course) return slope.name + ": rows out of order";
    rows.push_back(&row);
  }
  const job::SetOut* out = set_out_of(job, slope);
  if (out == nullptr || out->tails.empty()) return {};
  if (const std::string c = widths_complaint(job, slope, rows); !c.empty()) return c;
  if (const std::string c = overlap_complaint(slope, rows); !c.empty()) return c;

  const double joint = rows.empty() ? 0 : mm(rows.front()->gap);
  const double least = job.pack.number("bond.least_piece");
  // Nothing need be laid nearer to a face than its gap, a joint, and the least piece that is cut.
  const double near = roof.widest_gap_here() * 1.5 + 2 * joint + least;
  const bool double_lap =
      slope.covering.kind == job::CoveringKind::plain_tile || slope.covering.kind == job::CoveringKind::slate;
  // An apron covers the last full margin and the lap below it.
  const double below = double_lap ? mm(out->gauge + out->headlap) : job.pack.number("apron.cover");
  // In a narrow strip no bond may be possible; then the plan says so.
  const bool said_short = std::any_of(
      job.plan.findings.begin(), job.plan.findings.end(),
      [&](const job::Finding& f) { return f.rule == "bond.sidelap_short" && f.where == slope.name; });
  const auto judge = [&](Point p) -> std::string {
    int on = 0;
    bool joints = false;
    for (const job::Row* row : rows) {
      switch (lies(*row, p)) {
        case Lies::on_unit:
          ++on;
          break;
        case Lies::in_joint:
          joints = true;
          break;
        case Lies::off:
          // Two rows of a course part at a joint.
          for (const double side : {-joint - 0.01, joint + 0.01})
            joints = joints || lies(*row, {p.u + side, p.s}) == Lies::on_unit;
          break;
      }
    }
    if (p.s > roof.joins_end() - mm(slope.covering.length.value)) return {};  // nobody says what is there
    const double depth = roof.within_masonry(p);
    if (depth > kSmall && on > 0) return at_point(slope, p, "a unit in masonry, by " + std::to_string(depth));
    if (roof.off_units(p) > kSmall && on > 0) return at_point(slope, p, "a unit over a gutter");
    if (roof.off_units(p) > -near) return {};
    const int layers = double_lap ? 2 : 1;
    const bool may_be_open = said_short || roof.over_lead(p, below);
    const int wanted = !joints ? layers : may_be_open ? 0 : layers - 1;
    if (on < wanted) return at_point(slope, p, std::to_string(on) + " units for " + std::to_string(wanted));
    return {};
  };

  Generator random(static_cast<std::uint64_t>(points) + rows.size());
  const double low = -0.6 * roof.width();
  const double span = 2.2 * roof.width();
  for (std::int64_t i = 0; i < points; ++i) {
    const Point p{low + span * random.unit(), roof.top() * random.unit()};
    if (std::string c = judge(p); !c.empty()) return c;
  }
  // Around what stands there it is crowded: as many again near each stack.
  for (const Box& b : roof.boxes()) {
    const double reach = 400;
    for (std::int64_t i = 0; i < points; ++i) {
      const Point p{b.left - reach + (b.right - b.left + 2 * reach) * random.unit(),
                    b.front - reach + (b.gutter - b.front + 2 * reach) * random.unit()};
      if (std::string c = judge(p); !c.empty()) return c;
    }
  }
  return {};
}

}  // namespace lapwright::sample
