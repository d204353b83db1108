// Nets, soakers, marks, mirrors.
#include "judge_places.h"

#include <algorithm>
#include <map>
#include <set>
#include <vector>

namespace lapwright::sample {

namespace {

bool figure_of(const job::Piece& piece, const std::string& name) {
  return std::any_of(piece.figures.begin(), piece.figures.end(),
                     [&](const job::Figure& figure) { return figure.name == name; });
}

double shoelace(const geom::Ring& ring) {
  long double twice = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const geom::GridPoint a = ring[i];
    const geom::GridPoint b = ring[(i + 1) % ring.size()];
    twice += static_cast<long double>(a.x) * static_cast<long double>(b.y) -
             static_cast<long double>(b.x) * static_cast<long double>(a.y);
  }
  return static_cast<double>(twice / 2 / 1e6L);  // µm² to mm²
}

// How far the points stray from the plane where `axis` equals `value`.
double off_plane(const std::vector<geom::Vec3>& points, double geom::Vec3::* axis, double value) {
  const Range r = range_of(points, axis);
  return std::max(std::fabs(r.low - value), std::fabs(r.high - value));
}

double spread(const std::vector<geom::Vec3>& points, double geom::Vec3::* axis) {
  const Range r = range_of(points, axis);
  return r.high - r.low;
}

}  // namespace

std::string nets_complaint(const Judged& job) {
  for (const job::Piece& piece : job.plan.pieces) {
    if (const auto fault = geom::fault_of(piece.net)) return piece.mark + ": " + to_line(*fault);
    if (const auto panels = geom::split_into_panels(piece.net, piece.base_point); !panels) {
      return piece.mark + ": " + to_line(panels.error().front());
    }
    if (piece.net.roles.size() != piece.net.outline.size()) return piece.mark + ": edges without roles";
    double area = shoelace(piece.net.outline);
    for (const geom::Ring& hole : piece.net.holes) area += shoelace(hole);  // clockwise: negative
    if (std::fabs(area - piece.area.in_mm2()) > 1e-6 * area) return piece.mark + ": area";
    const double kg = area / 1e6 * job.pack.lead(piece.code.value_or(3)).kg_per_m2;
    if (!piece.code || std::fabs(kg - piece.mass.in_kg()) > 1e-9 * kg) return piece.mark + ": mass";
    const geom::Box box = geom::bounds(piece.net.outline);
    const double length = static_cast<double>(box.width()) / 1000;
    const double width = static_cast<double>(box.height()) / 1000;
    if (box.low != geom::GridPoint{}) return piece.mark + ": net away from the origin";
    // Beside a skew face the tail and head are aslant: the net is longer than the piece is up the slope.
    const bool aslant = figure_of(piece, "leg_square");
    if (!aslant && std::fabs(length - mm(piece.length)) > kSmall)
      return piece.mark + ": net longer or shorter than the blank";
    const bool strip = piece.kind != "soaker";  // a soaker's blank is its box, a flashing's a stocked strip
    if (strip ? width > mm(piece.width) + kSmall : std::fabs(width - mm(piece.width)) > kSmall) {
      return piece.mark + ": net wider than the blank";
    }
  }
  return {};
}

std::string soakers_complaint(const Judged& job) {
  const auto rule = [&](const char* name) { return job.pack.number(name); };
  for (const WallPlace& wall : walls_of(job)) {
    const std::vector<Placed> soakers = placed_at(job, wall, "soaker");
    if (soakers.empty()) continue;
    const CourseLines lines = course_lines(job, *wall.slope);
    const job::Covering& c = wall.slope->covering;
    const double top = lines.tails.back();
    const double set_back = rule("soaker.set_back");
    const double gap = widest_gap(job, *wall.junction);
    const double leg_least =
        gap + std::max(rule("soaker.leg_least"), (mm(c.width.value) + mm(c.width.spread)) / 2);
    const double upstand_least = std::max(rule("soaker.upstand"), rule("soaker.proud") + wall.face);
    const bool hooked =
        wall.junction->head_fixing.value_or(job::HeadFixing::hooked) == job::HeadFixing::hooked;
    std::map<std::int64_t, Range> flat;
    for (const Placed& p : soakers) {
      const auto k = static_cast<std::size_t>(p.course);
      if (p.course < 0 || k + 1 >= lines.tails.size()) return complaint(wall, "soaker of no course", 0, 0);
      if (!flat.emplace(p.course, range_of(p.panels[0], &geom::Vec3::y)).second) {
        return complaint(wall, "two soakers in one course", static_cast<double>(k), 1);
      }
      const double tail = lines.tails[k] + set_back;
      const double head = k == 0 ? lines.under : lines.tails[k - 1] + lines.lengths[k - 1];
      const std::vector<geom::Vec3>& leg = p.panels[0];
      if (off_plane(leg, &geom::Vec3::z, 0) > kTenth) return complaint(wall, "leg off the roof", 0, kTenth);
      const Range across = range_of(leg, &geom::Vec3::x);
      const double near = wall.inwards > 0 ? across.low - wall.u : wall.u - across.high;
      const double far = wall.inwards > 0 ? across.high - wall.u : wall.u - across.low;
      if (std::fabs(near) > kTenth) return complaint(wall, "leg away from the wall", near, kTenth);
      if (far < leg_least - kSmall) return complaint(wall, "leg short", far, leg_least);
      bool up = false;
      for (std::size_t i = 1; i < p.panels.size(); ++i) {
        const auto& panel = p.panels[i];
        if (off_plane(panel, &geom::Vec3::x, wall.u) <= kTenth) {
          const Range n = range_of(panel, &geom::Vec3::z);
          if (n.low < -kTenth || n.high < upstand_least - kSmall) {
            return complaint(wall, "upstand", n.high, upstand_least);
          }
          up = true;
        } else if (hooked && spread(panel, &geom::Vec3::y) <= kTenth) {
          const Range n = range_of(panel, &geom::Vec3::z);
          if (off_plane(panel, &geom::Vec3::y, head) > kTenth) {
            return complaint(wall, "hook off the head", panel.front().y, head);
          }
          const double reach = rule("soaker.head_allowance") + set_back;
          if (n.high > kTenth || std::fabs(n.low + reach) > kTenth)
            return complaint(wall, "hook", n.low, reach);
        } else {
          return complaint(wall, "panel on neither plane", static_cast<double>(i), 0);
        }
      }
      if (!up) return complaint(wall, "no upstand", 0, 0);
      for (const auto& panel : p.panels) {
        const Range s = range_of(panel, &geom::Vec3::y);
        if (s.low < tail - kSmall) return complaint(wall, "tail seen", s.low, tail);
        if (s.high > top + kSmall) return complaint(wall, "past the top edge", s.high, top);
      }
    }
    const double dead =
        c.kind == job::CoveringKind::slate && c.nailing == job::Nailing::head ? rule("slate.head_nail") : 0;
    const double headlap = mm(set_out_of(job, *wall.slope)->headlap);
    for (std::size_t k = 0; k + 1 < lines.tails.size(); ++k) {
      const auto course = static_cast<std::int64_t>(k);
      const bool beside =
          std::min(wall.to, lines.tails[k + 1]) - std::max(wall.from, lines.tails[k] + set_back) > kSmall;
      if (beside && !flat.contains(course))
        return complaint(wall, "no soaker at course", static_cast<double>(k), 0);
      const bool clear = wall.to < lines.tails[k] || wall.from > lines.tails[k + 1];
      if (clear && flat.contains(course))
        return complaint(wall, "soaker beside no wall", static_cast<double>(k), 0);
      if (!flat.contains(course) || !flat.contains(course + 1)) continue;
      const double lap = flat[course].high - flat[course + 1].low;
      const double room = top - lines.tails[k + 1] - set_back;
      if (lap < std::min(headlap + dead - set_back, room) - kSmall) {
        return complaint(wall, "soaker's lap at course " + std::to_string(k), lap, headlap + dead - set_back);
      }
    }
  }
  return {};
}

std::string marks_complaint(const Judged& job) {
  std::map<std::string, const job::Piece*> first;
  for (const job::Piece& piece : job.plan.pieces) {
    if (piece.mark.empty()) return "a piece without a mark";
    if (piece.count < 1 || piece.count != static_cast<std::int64_t>(piece.placements.size())) {
      return piece.mark + ": count and placements differ";
    }
    for (const auto& [mark, other] : first) {
      const bool same = other->kind == piece.kind && other->code == piece.code &&
                        other->width == piece.width && geom::same_net(other->net, piece.net);
      if (same != (mark == piece.mark))
        return mark + " and " + piece.mark + (same ? " are the same" : " differ");
    }
    first.emplace(piece.mark, &piece);
  }
  std::set<std::string> fitted;
  for (const job::WorkStep& step : job.plan.order_of_work) {
    if (step.text.empty() || step.text.find("«") != std::string::npos) return "order of work: " + step.text;
    if (step.mark.empty()) continue;
    if (!first.contains(step.mark)) return "order of work: no piece " + step.mark;
    fitted.insert(step.mark);
  }
  for (const auto& [mark, piece] : first) {
    if (!fitted.contains(mark)) return "order of work leaves out " + mark;
  }
  for (const job::Finding& f : job.plan.findings) {
    if (f.text.empty() || f.text.find("«") != std::string::npos || f.where.empty())
      return "finding: " + f.rule + f.text;
  }
  return {};
}

namespace {

// Largest distance between where `a` lies, mirrored in the slope, and where `b` lies.
double mirror_distance(const job::Piece& a, const job::Placement& place, const job::Placement& other,
                       double slope_width) {
  const double length = static_cast<double>(geom::bounds(a.net.outline).width()) / 1000;
  double worst = 0;
  for (const geom::GridPoint g : a.net.outline) {
    const double x = static_cast<double>(g.x) / 1000;
    const double y = static_cast<double>(g.y) / 1000;
    const geom::Vec3 p = place.frame.at(x, y);
    const geom::Vec3 q = other.frame.at(length - x, y);
    worst = std::max({worst, std::fabs(slope_width - p.x - q.x), std::fabs(p.y - q.y), std::fabs(p.z - q.z)});
  }
  return worst;
}

// Folds by place: the two ears of an apron are bent in either order.
geom::Net in_any_order(const geom::Net& net) {
  geom::Net out = geom::at_origin(net);
  for (geom::Fold& fold : out.folds) {
    if (fold.to < fold.from) std::swap(fold.from, fold.to);
  }
  std::sort(out.folds.begin(), out.folds.end(), [](const geom::Fold& p, const geom::Fold& q) {
    return p.from != q.from ? p.from < q.from : p.to < q.to;
  });
  return out;
}

// A stack's left side is its mirror's right: pieces are paired by what they are and where they lie, not by
// mark.
bool is_mirror_of(const Judged& job, const job::Piece& a, const job::Piece& b) {
  if (a.kind != b.kind || a.count != b.count || a.length != b.length || a.width != b.width) return false;
  if (a.placements.size() != b.placements.size()) return false;
  // A sleeve's seam is at the lower side, whichever facet its frame is of.
  if (a.kind == "pipe-sleeve") return true;
  if (!geom::same_net(in_any_order(geom::mirrored(a.net)), in_any_order(b.net))) return false;
  double slope_width = 0;
  for (const job::Slope& slope : job.survey.slopes) {
    if (slope.name == a.slope) slope_width = mm(slope.width.value);
  }
  std::vector<bool> used(b.placements.size(), false);
  for (const job::Placement& place : a.placements) {
    bool found = false;
    for (std::size_t j = 0; j < b.placements.size() && !found; ++j) {
      // The frame stands on the exact length, the net on the grid's.
      if (used[j] || mirror_distance(a, place, b.placements[j], slope_width) > 2e-3) continue;
      used[j] = true;
      found = true;
    }
    if (!found) return false;
  }
  return true;
}

}  // namespace

std::string mirror_complaint(const Judged& job, const job::Plan& mirrored) {
  if (job.plan.pieces.size() != mirrored.pieces.size()) return "mirror: other pieces";
  std::vector<bool> used(mirrored.pieces.size(), false);
  for (const job::Piece& piece : job.plan.pieces) {
    bool found = false;
    for (std::size_t i = 0; i < mirrored.pieces.size() && !found; ++i) {
      if (used[i] || !is_mirror_of(job, piece, mirrored.pieces[i])) continue;
      used[i] = true;
      found = true;
    }
    if (!found) return "mirror: nothing like " + piece.mark + " of " + piece.junction + " " + piece.face;
  }
  return {};
}

}  // namespace lapwright::sample
