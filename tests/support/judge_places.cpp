#include "judge_places.h"

#include <algorithm>

namespace lapwright::sample {

std::vector<WallPlace> walls_of(const Judged& job) {
  std::vector<WallPlace> out;
  for (const job::Slope& slope : job.survey.slopes) {
    for (const job::Junction& j : slope.junctions) {
      if (j.kind != job::JunctionKind::side) continue;
      WallPlace w;
      w.slope = &slope;
      w.junction = &j;
      const bool left = j.hand == job::Hand::left;
      w.u = left ? 0 : mm(slope.width.value);
      w.inwards = left ? 1 : -1;
      w.from = mm(j.from);
      w.to = j.to ? mm(*j.to) : mm(slope.rafter.value);
      // What hangs over the wall leaves less than the least room from here on: the usual lead stops.
      for (std::size_t i = 1; i < j.clear.size(); ++i) {
        const double least = job.pack.number("cheek.least_clear");
        const double below = mm(j.clear[i - 1].height);
        const double above = mm(j.clear[i].height);
        if (below < least || above >= least) continue;
        const double share = (below - least) / (below - above);
        const double at = mm(j.clear[i - 1].at) + share * (mm(j.clear[i].at) - mm(j.clear[i - 1].at));
        w.to = std::min(w.to, at);
        break;
      }
      const job::Covering& c = slope.covering;
      w.face = mm(c.thickness.value) + mm(c.thickness.spread) + mm(c.camber.value) + mm(c.camber.spread);
      w.sine = std::sin(slope.pitch.value.in_degrees() * kRadian);
      w.cosine = std::cos(slope.pitch.value.in_degrees() * kRadian);
      out.push_back(w);
    }
  }
  return out;
}

std::vector<Placed> placed_at(const Judged& job, const WallPlace& wall, std::string_view kind) {
  std::vector<Placed> out;
  for (const job::Piece& piece : job.plan.pieces) {
    if (piece.kind != kind || piece.slope != wall.slope->name || piece.junction != wall.junction->name)
      continue;
    const auto panels = geom::split_into_panels(piece.net, piece.base_point);
    if (!panels) continue;  // the nets' own judge says so
    for (const job::Placement& place : piece.placements) {
      Placed p;
      p.piece = &piece;
      p.course = place.course;
      p.flat = *panels;
      p.frames = geom::fold_panels(piece.net, *panels, place.frame);
      for (std::size_t i = 0; i < panels->size(); ++i) {
        std::vector<geom::Vec3> corners;
        for (const geom::GridPoint g : (*panels)[i].ring) {
          corners.push_back(p.frames[i].at(static_cast<double>(g.x) / 1000, static_cast<double>(g.y) / 1000));
        }
        p.panels.push_back(std::move(corners));
      }
      out.push_back(std::move(p));
    }
  }
  const auto lowest = [](const Placed& p) { return range_of(p.panels[0], &geom::Vec3::y).low; };
  std::sort(out.begin(), out.end(), [&](const Placed& a, const Placed& b) { return lowest(a) < lowest(b); });
  return out;
}

const job::SetOut* set_out_of(const Judged& job, const job::Slope& slope) {
  for (const job::SetOut& out : job.plan.set_out) {
    if (out.slope == slope.name) return &out;
  }
  return nullptr;
}

CourseLines course_lines(const Judged& job, const job::Slope& slope) {
  CourseLines lines;
  const job::SetOut* out = set_out_of(job, slope);
  if (out == nullptr) return lines;
  std::size_t change = 0;
  for (std::size_t k = 0; k < out->tails.size(); ++k) {
    while (change + 1 < out->lengths.size() &&
           out->length_from_course[change + 1] <= static_cast<std::int64_t>(k)) {
      ++change;
    }
    lines.tails.push_back(mm(out->tails[k]));
    lines.lengths.push_back(mm(out->lengths[change]));
  }
  if (lines.tails.empty()) return lines;
  lines.tails.push_back(mm(slope.rafter.value));
  lines.under = lines.lengths[0] - (lines.tails[1] - lines.tails[0]);
  return lines;
}

double widest_gap(const Judged& job, const job::Junction& junction) {
  if (junction.gaps.empty()) return job.pack.number("wall.gap");
  double widest = 0;
  for (const job::GapAt& gap : junction.gaps)
    widest = std::max(widest, mm(gap.width.value) + mm(gap.width.spread));
  return widest;
}

Range range_of(const std::vector<geom::Vec3>& points, double geom::Vec3::* axis) {
  Range r{points.front().*axis, points.front().*axis};
  for (const geom::Vec3& p : points) {
    r.low = std::min(r.low, p.*axis);
    r.high = std::max(r.high, p.*axis);
  }
  return r;
}

double upright(const WallPlace& wall, geom::Vec3 p) {
  return (p.y - wall.from) * wall.sine + (p.z - wall.face) * wall.cosine;
}

std::string complaint(const WallPlace& wall, const std::string& what, double got, double limit) {
  return wall.slope->name + " / " + wall.junction->name + ": " + what + ": " + std::to_string(got) +
         " against " + std::to_string(limit);
}

}  // namespace lapwright::sample
