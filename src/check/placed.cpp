#include <lapwright/check/placed.h>

#include <lapwright/base/trig.h>
#include <lapwright/geom/net.h>
#include <lapwright/job/facts.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace lapwright::check {

namespace {

using geom::Vec3;

constexpr double kTouch = 0.01;        // mm
constexpr double kUsualOverhang = 50;  // mm past the fascia, where the survey does not say
constexpr std::int64_t kOnTop = 1'000'000'000;

void measure(PlacedUnit& unit) {
  unit.u0 = unit.strips.front().u0;
  unit.u1 = unit.strips.back().u1;
  unit.tail = 1e300;
  unit.head = -1e300;
  for (const Strip& s : unit.strips) {
    unit.tail = std::min({unit.tail, s.lo0, s.lo1});
    unit.head = std::max({unit.head, s.hi0, s.hi1});
  }
}

bool meet_without_joint(const job::Row& left, double left_end, const job::Row& right) {
  if (left.course != right.course) return false;
  if (left.right_rake && right.left_rake) {
    const auto at = [](const job::Row::Rake& rake, const job::Row& row, double s) {
      const double share = (s - row.tail.in_mm()) / row.length.in_mm();
      return rake.at_tail.in_mm() + share * (rake.at_head - rake.at_tail).in_mm();
    };
    const double s0 = std::max(left.tail, right.tail).in_mm();
    const double s1 = std::min(left.tail + left.length, right.tail + right.length).in_mm();
    return std::abs(at(*left.right_rake, left, s0) - at(*right.left_rake, right, s0)) < kTouch &&
           std::abs(at(*left.right_rake, left, s1) - at(*right.left_rake, right, s1)) < kTouch;
  }
  if (left.right_rake || right.left_rake) return false;
  return std::abs(left_end - right.from.in_mm()) < kTouch;
}

void place_units(const job::Plan& plan, PlacedSlope& out) {
  std::vector<const job::Row*> rows;
  for (const job::Row& row : plan.rows) {
    if (row.slope == out.slope->name) rows.push_back(&row);
  }
  const job::Row* before = nullptr;
  double before_end = 0;
  for (const job::Row* row : rows) {
    double u = row->from.in_mm();
    const double gap = row->gap.in_mm();
    const double tail = row->tail.in_mm();
    const double head = tail + row->length.in_mm();
    bool goes_on = before != nullptr && meet_without_joint(*before, before_end, *row);
    std::int64_t number = 0;
    for (const job::UnitRun& run : row->widths) {
      const double width = run.width.in_mm();
      for (std::int64_t i = 0; i < run.count; ++i, ++number, u += width + gap) {
        PlacedUnit unit;
        unit.course = row->course;
        std::vector<Vec3> ring{{u, tail, 0}, {u + width, tail, 0}, {u + width, head, 0}, {u, head, 0}};
        if (row->left_rake) {
          ring = cut_by(ring, row->left_rake->at_tail.in_mm(), tail, row->left_rake->at_head.in_mm(), head,
                        true);
        }
        if (row->right_rake) {
          ring = cut_by(ring, row->right_rake->at_tail.in_mm(), tail, row->right_rake->at_head.in_mm(), head,
                        false);
        }
        unit.strips = strips_of(ring);
        if (unit.strips.empty()) continue;
        if (out.roll_pitch > 0) {
          for (double r = out.roll_pitch / 2; r < width; r += out.roll_pitch) unit.rolls.push_back(u + r);
        }
        if (!out.double_lap && gap < kTouch) unit.left_joined = unit.right_joined = true;
        if (row->nailed) {
          const double in = std::min(row->nail_in.in_mm(), width / 4);
          const double up = tail + row->nail_up.in_mm();
          const auto left_out = [&](job::Hand side) {
            return std::any_of(row->nails_left_out.begin(), row->nails_left_out.end(),
                               [&](const auto& n) { return n.unit == number && n.side == side; });
          };
          if (!goes_on && !left_out(job::Hand::left)) unit.nails.push_back({u + in, up});
          if (!left_out(job::Hand::right)) unit.nails.push_back({u + width - in, up});
        }
        measure(unit);
        if (goes_on && !out.units.empty()) {
          PlacedUnit& whole = out.units.back();
          // The right-hand nails are in this part.
          std::erase_if(whole.nails, [&](const Hole& h) { return h.u > (whole.u0 + whole.u1) / 2; });
          whole.strips = joined(whole.strips, unit.strips);
          whole.nails.insert(whole.nails.end(), unit.nails.begin(), unit.nails.end());
          measure(whole);
        } else {
          out.units.push_back(std::move(unit));
        }
        goes_on = false;
      }
    }
    before = row;
    before_end = u - gap;
  }
  if (out.double_lap) return;
  // The outer sides of a row are free.
  for (std::size_t i = 0; i < out.units.size(); ++i) {
    PlacedUnit& unit = out.units[i];
    const PlacedUnit* left = i > 0 ? &out.units[i - 1] : nullptr;
    const PlacedUnit* right = i + 1 < out.units.size() ? &out.units[i + 1] : nullptr;
    if (left == nullptr || left->course != unit.course || unit.u0 - left->u1 > kTouch)
      unit.left_joined = false;
    if (right == nullptr || right->course != unit.course || right->u0 - unit.u1 > kTouch)
      unit.right_joined = false;
  }
}

struct Step {
  std::int64_t course = -2;
  std::int64_t rank = 0;
};
using Steps = std::map<std::tuple<std::string, std::string, std::string>, std::vector<Step>>;

// When each mark goes on at each junction, in the order of work.
Steps steps_of(const job::Plan& plan) {
  Steps out;
  std::int64_t rank = 0;
  for (const job::WorkStep& step : plan.order_of_work) {
    ++rank;
    if (step.mark.empty()) continue;
    out[{step.slope, step.junction, step.mark}].push_back({step.course, rank});
  }
  return out;
}

std::int64_t order_of(const job::Placement& placement, const std::vector<Step>* steps, std::size_t nth,
                      bool on_boards) {
  if (placement.course > -2) return order_of_course(placement.course) - kSoakers;
  if (steps == nullptr || steps->empty()) return kOnTop;
  const Step& step = (*steps)[std::min(nth, steps->size() - 1)];
  if (step.course > -2)
    return order_of_course(step.course) - kAprons +
           2 * static_cast<std::int64_t>(std::min<std::size_t>(nth, 40));
  // What lines a valley or lies in a channel is laid on the boards, each piece over the one before.
  if (on_boards) return -kOnTop + step.rank;
  return kOnTop + 2 * step.rank;
}

// Lead of a wrong detail is in no order of work. Whoever lays it all the same works up the slope.
void order_unfitted(const job::Plan& plan, PlacedSlope& out) {
  std::vector<std::pair<double, PlacedLead*>> from_low;
  for (PlacedLead& lead : out.leads) {
    if (!plan.pieces[lead.piece].wrong || lead.course > -2) continue;
    double low = 1e300;
    for (const PlacedPanel& panel : lead.panels) {
      for (const Vec3& p : panel.ring) low = std::min(low, p.y);
    }
    from_low.emplace_back(low, &lead);
  }
  std::stable_sort(from_low.begin(), from_low.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::int64_t rank = 0;
  for (const auto& [low, lead] : from_low) {
    rank += 2;
    lead->order = (lead->kind == "secret-gutter" ? -kOnTop : kOnTop) + rank;
  }
}

void place_leads(const job::Plan& plan, PlacedSlope& out) {
  const Steps steps = steps_of(plan);
  std::map<std::tuple<std::string, std::string, std::string>, std::size_t> seen;
  for (std::size_t p = 0; p < plan.pieces.size(); ++p) {
    const job::Piece& piece = plan.pieces[p];
    if (piece.slope != out.slope->name) continue;
    const auto panels = geom::split_into_panels(piece.net, piece.base_point);
    if (!panels) continue;  // the planner's own tests hold every net sound
    const std::tuple key{piece.slope, piece.junction, piece.mark};
    const auto found = steps.find(key);
    for (std::size_t i = 0; i < piece.placements.size(); ++i) {
      PlacedLead lead;
      lead.kind = piece.kind;
      lead.mark = piece.mark;
      lead.junction = piece.junction;
      lead.face = piece.face;
      lead.course = piece.placements[i].course;
      lead.code = piece.code.value_or(0);
      lead.length = piece.length.in_mm();
      lead.piece = p;
      lead.placement = i;
      lead.order = order_of(piece.placements[i], found == steps.end() ? nullptr : &found->second, seen[key]++,
                            piece.kind == "valley" || piece.kind == "secret-gutter");
      const auto frames = geom::fold_panels(piece.net, *panels, piece.placements[i].frame);
      for (std::size_t k = 0; k < panels->size(); ++k) {
        PlacedPanel panel;
        for (const geom::GridPoint& g : (*panels)[k].ring) {
          panel.ring.push_back(frames[k].at(geom::to_length(g.x).in_mm(), geom::to_length(g.y).in_mm()));
        }
        panel.normal = frames[k].normal();
        panel.parent = (*panels)[k].parent.value_or(k);
        lead.panels.push_back(std::move(panel));
      }
      settle(lead, out);
      out.leads.push_back(std::move(lead));
    }
  }
  order_unfitted(plan, out);
}

// Where what hangs over a wall comes down to the roof the wall ends, as far as rain is concerned.
std::optional<double> closed_at(const job::Junction& junction) {
  for (std::size_t i = 1; i < junction.clear.size(); ++i) {
    const double below = junction.clear[i - 1].height.in_mm();
    const double above = junction.clear[i].height.in_mm();
    if (above > 0 || below <= 0) continue;
    const double a = junction.clear[i - 1].at.in_mm();
    return a + (junction.clear[i].at.in_mm() - a) * below / (below - above);
  }
  return std::nullopt;
}

void place_faces(const job::Survey& survey, PlacedSlope& out) {
  std::vector<job::Junction> junctions = out.slope->junctions;
  for (job::Junction& part : job::parts_from_across(survey, *out.slope)) junctions.push_back(std::move(part));
  for (const job::Junction& junction : junctions) {
    for (const job::Face& face : job::faces_of(*out.slope, junction)) {
      PlacedFace placed;
      placed.junction = junction.name;
      placed.kind = junction.kind;
      placed.face = face;
      if (const auto closed = closed_at(junction); closed && face.kind == job::FaceKind::side) {
        placed.face.to.s = min(placed.face.to.s, Length::mm(*closed));
      }
      if (face.kind != job::FaceKind::round)
        placed.frame = job::frame_of(placed.face, out.slope->pitch.value);
      placed.asked = junction.detail;
      placed.welded = junction.corners == job::Corners::welded;
      placed.through_ridge =
          junction.across && std::any_of(out.slope->junctions.begin(), out.slope->junctions.end(),
                                         [&](const job::Junction& j) { return j.name == junction.name; });
      out.faces.push_back(std::move(placed));
    }
  }
}

bool is_gutter(std::string_view kind) {
  return kind == "back-gutter" || kind == "secret-gutter" || kind == "valley";
}

}  // namespace

std::optional<PlacedLead::Extent> PlacedLead::extent(Lies lies) const {
  std::optional<Extent> out;
  for (const PlacedPanel& panel : panels) {
    if (panel.lies != lies) continue;
    for (const Vec3& p : panel.ring) {
      if (!out) out = Extent{p.x, p.x, p.y, p.y, p.z, p.z};
      out->u0 = std::min(out->u0, p.x);
      out->u1 = std::max(out->u1, p.x);
      out->s0 = std::min(out->s0, p.y);
      out->s1 = std::max(out->s1, p.y);
      out->n0 = std::min(out->n0, p.z);
      out->n1 = std::max(out->n1, p.z);
    }
  }
  return out;
}

void settle(PlacedLead& lead, const PlacedSlope& slope) {
  for (PlacedPanel& panel : lead.panels) {
    panel.lies = Lies::elsewhere;
    const double flat = std::abs(panel.normal.z);
    if (flat > 0.95 || (is_gutter(lead.kind) && flat > 0.3)) panel.lies = Lies::on_roof;
    for (const PlacedFace& face : slope.faces) {
      if (face.junction != lead.junction || face.face.kind == job::FaceKind::round) continue;
      double low = 1e300;
      double high = -1e300;
      double x0 = 1e300;
      double x1 = -1e300;
      for (const Vec3& p : panel.ring) {
        const double d = dot(p - face.frame.foot, face.frame.out);
        const double x = dot(p - face.frame.foot, face.frame.along);
        low = std::min(low, d);
        high = std::max(high, d);
        x0 = std::min(x0, x);
        x1 = std::max(x1, x);
      }
      constexpr double kOnPlane = 1;  // mm
      // Another face's plane goes on past its ends.
      const bool own = face.face.name == lead.face;
      if (!own && (x1 < kOnPlane || x0 > face.frame.length.in_mm() - kOnPlane)) continue;
      if (low > -kOnPlane && high < kOnPlane) {
        panel.lies = Lies::on_face;
      } else if (own && !(flat > 0.95 && (x1 < kOnPlane || x0 > face.frame.length.in_mm() - kOnPlane)) &&
                 high < kOnPlane && low < -kOnPlane) {
        panel.lies = Lies::in_masonry;
      }
    }
  }
}

std::vector<Strip> joined(const std::vector<Strip>& a, const std::vector<Strip>& b) {
  std::vector<double> us;
  for (const auto* strips : {&a, &b}) {
    for (const Strip& s : *strips) {
      us.push_back(s.u0);
      us.push_back(s.u1);
    }
  }
  std::sort(us.begin(), us.end());
  std::vector<Strip> out;
  const auto at = [](double u, double u0, double u1, double y0, double y1) {
    return u1 > u0 ? y0 + (y1 - y0) * (u - u0) / (u1 - u0) : y0;
  };
  for (std::size_t i = 0; i + 1 < us.size(); ++i) {
    if (us[i + 1] - us[i] < kTouch) continue;
    const double mid = (us[i] + us[i + 1]) / 2;
    std::optional<Strip> here;
    for (const auto* strips : {&a, &b}) {
      for (const Strip& s : *strips) {
        if (mid < s.u0 || mid > s.u1) continue;
        const Strip cut{us[i],
                        us[i + 1],
                        at(us[i], s.u0, s.u1, s.lo0, s.lo1),
                        at(us[i + 1], s.u0, s.u1, s.lo0, s.lo1),
                        at(us[i], s.u0, s.u1, s.hi0, s.hi1),
                        at(us[i + 1], s.u0, s.u1, s.hi0, s.hi1)};
        if (!here) {
          here = cut;
        } else {
          here->lo0 = std::min(here->lo0, cut.lo0);
          here->lo1 = std::min(here->lo1, cut.lo1);
          here->hi0 = std::max(here->hi0, cut.hi0);
          here->hi1 = std::max(here->hi1, cut.hi1);
        }
      }
    }
    if (!here) continue;
    if (!out.empty()) here->u0 = out.back().u1;
    out.push_back(*here);
  }
  return out;
}

std::vector<Vec3> cut_by(const std::vector<Vec3>& ring, double u0, double s0, double u1, double s1,
                         bool keep_right) {
  const auto side = [&](const Vec3& p) {
    const double d = (p.x - u0) * (s1 - s0) - (p.y - s0) * (u1 - u0);
    return keep_right ? d : -d;
  };
  std::vector<Vec3> out;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec3& a = ring[i];
    const Vec3& b = ring[(i + 1) % ring.size()];
    const double da = side(a);
    const double db = side(b);
    if (da >= 0) out.push_back(a);
    if ((da > 0 && db < 0) || (da < 0 && db > 0)) out.push_back(a + (da / (da - db)) * (b - a));
  }
  return out;
}

std::vector<Strip> strips_of(const std::vector<Vec3>& ring) {
  std::vector<double> us;
  for (const Vec3& p : ring) us.push_back(p.x);
  std::sort(us.begin(), us.end());
  std::vector<Strip> out;
  double from = us.empty() ? 0 : us.front();
  for (std::size_t i = 0; i + 1 < us.size(); ++i) {
    if (us[i + 1] - from < 1e-3) continue;
    const double u0 = from;
    const double u1 = us[i + 1];
    from = u1;
    const double mid = (u0 + u1) / 2;
    Strip strip{u0, u1, 1e300, 0, -1e300, 0};
    double lowest = 1e300;
    double highest = -1e300;
    for (std::size_t k = 0; k < ring.size(); ++k) {
      const Vec3& a = ring[k];
      const Vec3& b = ring[(k + 1) % ring.size()];
      if (std::min(a.x, b.x) >= mid || std::max(a.x, b.x) <= mid) continue;
      const auto s_at = [&](double u) { return a.y + (b.y - a.y) * (u - a.x) / (b.x - a.x); };
      const double s = s_at(mid);
      if (s < lowest) {
        lowest = s;
        strip.lo0 = s_at(u0);
        strip.lo1 = s_at(u1);
      }
      if (s > highest) {
        highest = s;
        strip.hi0 = s_at(u0);
        strip.hi1 = s_at(u1);
      }
    }
    if (highest - lowest > 1e-6) out.push_back(strip);
  }
  return out;
}

PlacedRoof place(const job::Survey& survey, const job::Plan& plan) {
  PlacedRoof out;
  for (std::size_t i = 0; i < survey.slopes.size(); ++i) {
    const job::Slope& slope = survey.slopes[i];
    PlacedSlope placed;
    placed.slope = &slope;
    placed.top = slope.rafter.value.in_mm();
    placed.width = slope.width.value.in_mm();
    placed.eaves = slope.overhang ? slope.overhang->in_mm() : kUsualOverhang;
    placed.pitch = slope.pitch.value.in_degrees();
    const job::Covering& c = slope.covering;
    placed.double_lap = job::is_double_lap(c.kind);
    placed.face = (c.thickness.most() + c.camber.most()).in_mm();
    for (const job::SetOut& set_out : plan.set_out) {
      if (set_out.slope == slope.name) placed.gauge = set_out.gauge.in_mm();
    }
    // A unit's tail rests on the unit below: over one gauge it falls less than the rafter by its thickness.
    const double lies_up =
        placed.gauge > 0 ? asin_deg(std::min(c.thickness.value.in_mm() / placed.gauge, 1.0)) : 0;
    placed.own_pitch = std::max(placed.pitch - lies_up, 1.0);
    placed.joins = job::joins_of(survey, i);
    if (c.kind == job::CoveringKind::profiled_tile) {
      // Where the survey does not say how far apart the rolls are (a doubt of its own), they are taken close.
      constexpr double kClose = 75;
      placed.roll_pitch = c.roll_pitch ? c.roll_pitch->in_mm() : kClose;
    }
    place_faces(survey, placed);
    place_units(plan, placed);
    place_leads(plan, placed);
    for (PlacedFace& face : placed.faces) {
      face.bare_is_wrong = std::any_of(placed.leads.begin(), placed.leads.end(), [&](const PlacedLead& lead) {
        return lead.junction == face.junction;
      });
    }
    out.slopes.push_back(std::move(placed));
  }
  return out;
}

}  // namespace lapwright::check
