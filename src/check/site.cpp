#include <lapwright/check/site.h>

#include <lapwright/base/trig.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace lapwright::check {

namespace {

using geom::Vec3;
using job::FaceKind;

constexpr double kBehind = 200;  // mm of masonry behind a face at the slope's edge: no path goes so far
constexpr double kBehindLine =
    900;                      // behind a wall on a line: a dormer, another roof; not this one's covering
constexpr double kEnd = 250;  // of such a line: how it ends is for what stands there
// Whatever ends the slope at its top (a ridge, a wall) is taken to lap the top course by this.
constexpr double kUnderRidge = 75;

struct Reach {
  double u0 = 1e300;
  double u1 = -1e300;
  double s0 = 1e300;
  double s1 = -1e300;
  void take(const std::vector<Strip>& strips) {
    for (const Strip& s : strips) {
      u0 = std::min(u0, s.u0);
      u1 = std::max(u1, s.u1);
      s0 = std::min({s0, s.lo0, s.lo1});
      s1 = std::max({s1, s.hi0, s.hi1});
    }
  }
  bool meets(double a0, double a1, double b0, double b1, double more) const {
    return a0 < u1 + more && a1 > u0 - more && b0 < s1 && b1 > s0;
  }
};

std::vector<Vec3> rectangle(double u0, double u1, double s0, double s1) {
  return {{u0, s0, 0}, {u1, s0, 0}, {u1, s1, 0}, {u0, s1, 0}};
}

// From the foot line `from` behind it to `to` before it.
std::vector<Vec3> beside(const PlacedFace& face, double from, double to, double less = 0) {
  const Vec3 a = face.frame.foot + less * face.frame.along;
  const Vec3 b = face.frame.foot + (face.frame.length.in_mm() - less) * face.frame.along;
  const Vec3& away = face.frame.away;
  return {a + from * away, b + from * away, b + to * away, a + to * away};
}

void append(std::vector<Strip>& to, const std::vector<Strip>& strips) {
  to.insert(to.end(), strips.begin(), strips.end());
}

bool on_line(const PlacedFace& f) {
  return f.kind == job::JunctionKind::wall;
}

bool is_level(FaceKind kind) {
  return kind == FaceKind::top || kind == FaceKind::front || kind == FaceKind::back;
}

struct Box {
  double u0 = 0;
  double u1 = 0;
  double s0 = 0;
  double s1 = 0;
};

// The plan of a stack: its faces' feet enclose it.
Box stack_box(const std::vector<const PlacedFace*>& faces, double top) {
  Box box{1e300, -1e300, 1e300, -1e300};
  for (const PlacedFace* f : faces) {
    for (const job::FootPoint& p : {f->face.from, f->face.to}) {
      box.u0 = std::min(box.u0, p.u.in_mm());
      box.u1 = std::max(box.u1, p.u.in_mm());
      box.s0 = std::min(box.s0, p.s.in_mm());
      box.s1 = std::max(box.s1, p.s.in_mm());
    }
  }
  box.s1 = std::min(box.s1, top);
  return box;
}

bool is_stack(const std::vector<const PlacedFace*>& faces) {
  return std::any_of(faces.begin(), faces.end(),
                     [](const PlacedFace* f) { return f->face.kind == FaceKind::front; });
}

std::vector<std::vector<const PlacedFace*>> by_junction(const PlacedSlope& slope) {
  std::vector<std::vector<const PlacedFace*>> out;
  for (const PlacedFace& f : slope.faces) {
    if (out.empty() || out.back().front()->junction != f.junction) out.emplace_back();
    out.back().push_back(&f);
  }
  return out;
}

// Masonry of every junction; `grown` by what units stop short of it, when their ends count as sealed.
std::vector<Strip> masonry_of(const PlacedSlope& slope, bool grown) {
  std::vector<Strip> out;
  for (const auto& faces : by_junction(slope)) {
    if (is_stack(faces)) {
      Box b = stack_box(faces, slope.top);
      if (grown) {
        for (const PlacedFace* f : faces) {
          const double gap = gap_beside(slope, *f);
          switch (f->face.kind) {
            case FaceKind::side:
              (f->face.hand == job::Hand::left ? b.u1 : b.u0) += f->face.hand == job::Hand::left ? gap : -gap;
              break;
            case FaceKind::front:
              b.s0 -= gap;
              break;
            default:
              break;
          }
        }
      }
      out.push_back(box(b.u0, b.u1, b.s0, b.s1 >= slope.top - 1 ? slope.top + kBehind : b.s1));
      continue;
    }
    for (const PlacedFace* f : faces) {
      if (f->face.kind == FaceKind::round) continue;
      append(out,
             strips_of(beside(*f, on_line(*f) ? -kBehindLine : -kBehind, grown ? gap_beside(slope, *f) : 0)));
    }
  }
  return out;
}

// Where lead is bossed or welded round a stack's corners: the gap's own width each way, and up to where the
// apron's fold stands on the units. And where a wall on a line ends within the slope: nobody says what stands
// there.
std::vector<Strip> bossed_corners(const PlacedSlope& slope) {
  std::vector<Strip> out;
  for (const PlacedFace& f : slope.faces) {
    if (!on_line(f)) continue;
    for (const job::FootPoint& p : {f.face.from, f.face.to}) {
      const double u = p.u.in_mm();
      const double s = p.s.in_mm();
      if (u < 1 || u > slope.width - 1 || s < 1 || s > slope.top - 1) continue;
      out.push_back(box(u - kEnd, u + kEnd, s - kEnd, s + kEnd));
    }
  }
  // Where a side wall begins up the slope, the units below it run to the slope's edge; what of them lies
  // beside the wall's foot is under its first soaker, and what ends the wall is not this face's affair.
  for (const PlacedFace& f : slope.faces) {
    if (f.face.kind != FaceKind::side || f.kind != job::JunctionKind::side) continue;
    const double from = f.face.from.s.in_mm();
    if (from < 1) continue;
    const double u = f.face.from.u.in_mm();
    const bool left = f.face.hand == job::Hand::left;
    constexpr double kHair = 0.01;
    const double length = slope.slope->covering.length.value.in_mm();
    out.push_back(
        box(left ? u - kBehind : u - kHair, left ? u + kHair : u + kBehind, from - 1, from + length));
  }
  for (const auto& faces : by_junction(slope)) {
    if (!is_stack(faces)) continue;
    const Box b = stack_box(faces, slope.top);
    double gap = 0;
    for (const PlacedFace* f : faces) gap = std::max(gap, gap_beside(slope, *f));
    gap += 1;
    const double up = b.s0 + slope.face * tan_deg(slope.pitch) + gap;
    for (const double u : {b.u0, b.u1}) {
      out.push_back(box(u - gap, u + gap, b.s0 - gap, up));
      if (b.s1 < slope.top - 1) out.push_back(box(u - gap, u + gap, b.s1 - gap, b.s1 + 2 * gap));
    }
  }
  return out;
}

// The gaps in front of stacks, from side to side of them.
std::vector<Strip> corners_of(const PlacedSlope& slope) {
  std::vector<Strip> out;
  for (const auto& faces : by_junction(slope)) {
    if (!is_stack(faces)) continue;
    const Box b = stack_box(faces, slope.top);
    double gap = 0;
    for (const PlacedFace* f : faces) gap = std::max(gap, gap_beside(slope, *f));
    out.push_back(box(b.u0 - gap, b.u1 + gap, b.s0 - gap, b.s0));
  }
  // The grid of nets leaves edges that lie against a slanting face a hair off it.
  constexpr double kHair = 0.05;
  for (const PlacedFace& f : slope.faces) {
    if (f.face.kind != FaceKind::round) append(out, strips_of(beside(f, -kBehind, kHair)));
  }
  return out;
}

// What is roof: within the slope's edges and this side of its valleys and hips.
void add_ours(const PlacedSlope& slope, std::vector<Vec3> ring, std::vector<Strip>& out) {
  const double top = slope.top - kUnderRidge;
  ring = cut_by(ring, 0, top, 1, top, true);
  double low = 0;
  double high = slope.width;
  for (const job::SlopeJoin& join : slope.joins) {
    const job::JoinSide& side = join.line.sides[join.side];
    if (join.line.join->kind == job::JoinKind::ridge) continue;
    // Beside an open valley units stop, and its own lead takes over; a hip's tiles cover as much.
    constexpr double kLined = 260;
    const bool at_left = side.hand == job::Hand::left;
    const double foot = at_left ? kLined : slope.width - kLined;
    ring = cut_by(ring, foot, 0, foot + side.drift, 1, at_left);
    (at_left ? low : high) = at_left ? -1e6 : 1e6;
  }
  if (ring.empty()) return;
  ring = cut_by(ring, low, 0, low, 1, true);
  if (ring.empty()) return;
  ring = cut_by(ring, high, 0, high, 1, false);
  if (ring.size() >= 3) append(out, strips_of(ring));
}

void add_units(const PlacedSlope& slope, const Reach& reach, Site& site, Traced& into, bool sealed) {
  const double more = slope.slope->covering.width.value.in_mm();
  for (const PlacedUnit& unit : slope.units) {
    if (!reach.meets(unit.u0, unit.u1, unit.tail, unit.head, more)) continue;
    Sheet sheet;
    sheet.strips = unit.strips;
    sheet.order = order_of_course(unit.course);
    if (unit.left_joined) sheet.left = SheetEdge::barrier;
    if (unit.right_joined) sheet.right = SheetEdge::barrier;
    sheet.turned_up = sealed;
    if (sealed) {
      sheet.owner = kNobody;
    } else {
      sheet.owner = site.units.size();
      site.units.push_back(&unit);
    }
    // Between two rolls water keeps to its trough.
    for (const double roll : unit.rolls) {
      const Strip& last = sheet.strips.back();
      if (sheet.strips.size() != 1 || last.lo0 != last.lo1 || last.hi0 != last.hi1) break;
      if (roll <= last.u0 + 1 || roll >= last.u1 - 1) continue;
      Sheet left = sheet;
      left.strips.front().u1 = roll;
      left.right = SheetEdge::barrier;
      into.sheets.push_back(std::move(left));
      sheet.strips.front().u0 = roll;
      sheet.left = SheetEdge::barrier;
    }
    into.sheets.push_back(std::move(sheet));
  }
}

bool drains(const std::string& kind) {
  return kind == "back-gutter" || kind == "secret-gutter" || kind == "valley" || kind == "valley-saddle";
}

// Where an apron is bossed round a stack's front corners, what lay past the side is worked until it reaches
// both the roof beside the stack and the stack's side: on the roof a triangle behind the front's line. One
// sheet with what covers the units.
std::vector<Strip> with_ears(const PlacedSlope& slope, const PlacedLead& lead, std::vector<Vec3> ring) {
  const auto stands = lead.extent(Lies::on_face);
  const bool has_ears = std::any_of(lead.panels.begin(), lead.panels.end(), [&](const PlacedPanel& p) {
    return p.parent != 0 && std::abs(p.normal.x) > 0.9;
  });
  for (const PlacedFace& front : slope.faces) {
    if (!stands || !has_ears || lead.kind != "apron") break;
    if (front.junction != lead.junction || front.face.name != lead.face) continue;
    if (front.face.kind != FaceKind::front) continue;
    const double left = front.face.from.u.in_mm();
    const double right = front.face.to.u.in_mm();
    const double s = front.face.from.s.in_mm() + slope.face * tan_deg(slope.pitch);
    ring = cut_by(ring, 0, s, 1, s, true);
    std::vector<Strip> out = strips_of(ring);
    if (out.empty()) return out;
    const double high = (stands->n1 - stands->n0) / cos_deg(slope.pitch);
    constexpr double kRoot = 1;  // mm within the cover
    const auto ear = [&](double side, double past, double way) {
      if (past <= 1) return;
      const double reach = std::min(past, high / tan_deg(slope.pitch));
      out = joined(out, strips_of({{side, s - kRoot, 0},
                                   {side + way * past, s - kRoot, 0},
                                   {side + way * past, s, 0},
                                   {side, s + reach, 0}}));
    };
    ear(left, left - out.front().u0, -1);
    ear(right, out.back().u1 - right, 1);
    return out;
  }
  return strips_of(ring);
}

void add_leads(const PlacedSlope& slope, const Reach& reach, Site& site) {
  for (const PlacedLead& lead : slope.leads) {
    const auto stands = lead.extent(Lies::on_face);
    bool any = false;
    for (const PlacedPanel& panel : lead.panels) {
      if (panel.lies != Lies::on_roof) continue;
      Sheet sheet;
      sheet.drains = drains(lead.kind);
      std::vector<Vec3> ring = panel.ring;
      if (sheet.drains) {
        // A gutter's sole stands off the slope: rain comes down on it plumb.
        for (Vec3& p : ring) p.y -= p.z * tan_deg(slope.pitch);
      }
      sheet.strips = with_ears(slope, lead, ring);
      if (sheet.strips.empty()) continue;
      Reach own;
      own.take(sheet.strips);
      if (!reach.meets(own.u0, own.u1, own.s0, own.s1, 0)) continue;
      sheet.order = lead.order;
      sheet.turned_up = sheet.drains || (stands && stands->n1 > slope.face + 1);
      for (const Hole& h : lead.pierced) sheet.holes.push_back(h);
      sheet.owner = site.units.size() + site.leads.size();
      if (lead.kind == "cheek-flashing") {
        // The box over it keeps the rain off, and so does what hangs over the roof further up.
        Sheet boxed = sheet;
        for (Strip& s : boxed.strips) s.hi0 = s.hi1 = slope.top;
        boxed.order = std::numeric_limits<std::int64_t>::max();
        boxed.drains = true;
        boxed.owner = kNobody;
        site.traced.sheets.push_back(std::move(boxed));
      }
      site.traced.sheets.push_back(std::move(sheet));
      any = true;
    }
    if (any) site.leads.push_back(&lead);
  }
}

// What covers the slope's top edge keeps the rain off; what runs down it is rain on the course below.
void add_ridge(const PlacedSlope& slope, const Reach& reach, Traced& into) {
  Sheet ridge;
  constexpr double kWide = 1000;
  ridge.strips.push_back(box(reach.u0 - kWide, reach.u1 + kWide, slope.top - kUnderRidge, slope.top + kWide));
  ridge.order = std::numeric_limits<std::int64_t>::max();
  ridge.drains = true;
  ridge.owner = kNobody;
  into.sheets.push_back(std::move(ridge));
}

std::int64_t courses_within(const PlacedSlope& slope, double s0, double s1) {
  std::int64_t first = 1'000'000;
  std::int64_t last = -1;
  for (const PlacedUnit& unit : slope.units) {
    if (unit.course < 0 || unit.tail >= s1 || unit.head <= s0) continue;
    first = std::min(first, unit.course);
    last = std::max(last, unit.course);
  }
  return last < first ? 0 : last - first + 1;
}

// How far from its face a junction's lead reaches over the roof.
double lead_reach(const PlacedSlope& slope, const PlacedFace& face) {
  double reach = 0;
  for (const PlacedLead& lead : slope.leads) {
    if (lead.junction != face.junction || lead.face != face.face.name) continue;
    for (const PlacedPanel& panel : lead.panels) {
      if (panel.lies != Lies::on_roof) continue;
      for (const Vec3& p : panel.ring) reach = std::max(reach, dot(p - face.frame.foot, face.frame.away));
    }
  }
  return reach;
}

Site site_of(const PlacedSlope& slope, const std::vector<const PlacedFace*>& faces) {
  Site site;
  site.junction = faces.front()->junction;
  const double unit = slope.slope->covering.width.value.in_mm();
  const double length = slope.slope->covering.length.value.in_mm();
  std::vector<Strip> sealed;
  const double room = 2 * unit;
  if (is_stack(faces)) {
    const Box b = stack_box(faces, slope.top);
    double before = 0;
    double side = 0;
    double behind = 0;
    for (const PlacedFace* f : faces) {
      const double reach = lead_reach(slope, *f);
      double& most = f->face.kind == FaceKind::front  ? before
                     : f->face.kind == FaceKind::back ? behind
                                                      : side;
      most = std::max(most, reach);
    }
    side += room;
    add_ours(slope, rectangle(b.u0 - side, b.u1 + side, b.s0 - before - length, b.s1 + behind + length),
             site.traced.ours);
    add_ours(slope, rectangle(b.u0 - side, b.u0, b.s0, b.s1), sealed);
    add_ours(slope, rectangle(b.u1, b.u1 + side, b.s0, b.s1), sealed);
    site.sealed_matters = true;
    site.run = b.s1 - b.s0;
    site.courses = courses_within(slope, b.s0, b.s1);
  } else {
    for (const PlacedFace* f : faces) {
      if (f->face.kind == FaceKind::round) {
        Reach base;
        for (const PlacedLead& lead : slope.leads) {
          if (lead.junction != f->junction) continue;
          for (const PlacedPanel& p : lead.panels) {
            if (p.lies == Lies::on_roof) base.take(strips_of(p.ring));
          }
        }
        const double u = f->face.from.u.in_mm();
        const double s = f->face.from.s.in_mm();
        if (base.u1 < base.u0) base = {u - unit, u + unit, s - length, s + length};
        add_ours(slope, rectangle(base.u0 - unit, base.u1 + unit, base.s0 - length / 2, base.s1 + length / 2),
                 site.traced.ours);
        site.run = base.s1 - base.s0;
        site.courses = courses_within(slope, base.s0, base.s1);
        continue;
      }
      const double reach = lead_reach(slope, *f);
      const double deep = is_level(f->face.kind) ? reach + 2 * length : reach + room;
      add_ours(slope, beside(*f, 0, deep, on_line(*f) ? kEnd : 0), site.traced.ours);
      if (!is_level(f->face.kind)) {
        site.sealed_matters = true;
        add_ours(slope, beside(*f, 0, deep, on_line(*f) ? kEnd : 0), sealed);
      }
      const double low = std::min(f->face.from.s, f->face.to.s).in_mm();
      const double high = std::max(f->face.from.s, f->face.to.s).in_mm();
      const double s0 = is_level(f->face.kind) && f->face.roof_below ? low - deep : low;
      const double s1 = is_level(f->face.kind) && !f->face.roof_below ? high + deep : high;
      // Of a face that runs up the slope only what is rained on and has to be dry below.
      const double from = is_level(f->face.kind) ? s0 : std::max(s0, slope.eaves);
      const double to = is_level(f->face.kind) ? s1 : std::min(s1, slope.top - kUnderRidge);
      if (to - from > site.run) {
        site.run = to - from;
        site.courses = courses_within(slope, s0, s1);
      }
    }
  }
  // What gets below the under-course near its tail comes out over the fascia, and what is driven up under it
  // does from a headlap further up. So does all of it in front of a stack that stands on the eaves, where
  // lead covers the joints of the lowest courses.
  const double headlap = std::max(length - 2 * slope.gauge, 0.0);
  const double eaves = is_stack(faces) ? slope.eaves + headlap : slope.eaves;
  site.traced.eaves = eaves;
  site.traced.driven = headlap;
  site.traced.masonry = masonry_of(slope, false);
  site.traced.dressed = corners_of(slope);
  site.traced.closed = bossed_corners(slope);
  Reach reach;
  reach.take(site.traced.ours);
  add_units(slope, reach, site, site.traced, false);
  add_leads(slope, reach, site);
  add_ridge(slope, reach, site.traced);
  if (site.sealed_matters) {
    site.sealed.eaves = eaves;
    site.sealed.driven = headlap;
    site.sealed.ours = std::move(sealed);
    site.sealed.masonry = masonry_of(slope, true);
    add_units(slope, reach, site, site.sealed, true);
    add_ridge(slope, reach, site.sealed);
  }
  return site;
}

}  // namespace

double gap_beside(const PlacedSlope& slope, const PlacedFace& face) {
  if (face.face.kind == FaceKind::round) return 0;
  constexpr double kFar = 100;  // mm: further off is not a gap but roof without units
  std::vector<std::pair<std::int64_t, double>> nearest;
  const double length = face.frame.length.in_mm();
  for (const PlacedUnit& unit : slope.units) {
    double near = 1e300;
    for (const Strip& s : unit.strips) {
      for (const Vec3& p :
           {Vec3{s.u0, s.lo0, 0}, Vec3{s.u0, s.hi0, 0}, Vec3{s.u1, s.lo1, 0}, Vec3{s.u1, s.hi1, 0}}) {
        const Vec3 d = p - face.frame.foot;
        const double x = dot(d, face.frame.along);
        const double y = dot(d, face.frame.away);
        if (x > -1 && x < length + 1 && y > -1) near = std::min(near, y);
      }
    }
    if (near > kFar) continue;
    if (!nearest.empty() && nearest.back().first == unit.course) {
      nearest.back().second = std::min(nearest.back().second, near);
    } else {
      nearest.emplace_back(unit.course, near);
    }
  }
  double widest = 0;
  for (const auto& [course, gap] : nearest) widest = std::max(widest, gap);
  return widest + 0.5;
}

std::vector<Site> sites_of(const PlacedSlope& slope) {
  std::vector<Site> out;
  for (const auto& faces : by_junction(slope)) out.push_back(site_of(slope, faces));
  return out;
}

Traced plain_field(const PlacedSlope& slope) {
  constexpr std::int64_t kUnits = 5;
  Traced out;
  const double width = slope.slope->covering.width.value.in_mm();
  double joint = 1e300;
  const PlacedUnit* before = nullptr;
  std::int64_t seen = -2;
  std::vector<std::pair<double, double>> courses;  // tail and head; the under-course first
  for (const PlacedUnit& unit : slope.units) {
    if (before != nullptr && before->course == unit.course) {
      const double gap = unit.u0 - before->u1;
      if (gap > -0.01) joint = std::min(joint, std::max(gap, 0.0));
    }
    before = &unit;
    if (unit.course > seen) {
      seen = unit.course;
      courses.emplace_back(unit.tail, unit.head);
    }
    courses.back().first = std::min(courses.back().first, unit.tail);
    courses.back().second = std::max(courses.back().second, unit.head);
  }
  if (courses.empty()) return out;
  if (joint > 20) joint = 0;
  const double pitch = width + joint;
  std::int64_t order = -2;
  const double right = static_cast<double>(kUnits) * pitch - joint;
  for (const auto& [tail, head] : courses) {
    const double shift = slope.double_lap && order % 4 != 0 ? pitch / 2 : 0;
    for (std::int64_t i = -1; i < kUnits; ++i) {
      const double u0 = std::max(0.0, shift + static_cast<double>(i) * pitch);
      const double u1 = i == kUnits - 1 ? right : shift + static_cast<double>(i) * pitch + width;
      if (u1 - u0 < 1) continue;
      Sheet sheet;
      sheet.strips.push_back(box(u0, u1, tail, head));
      sheet.order = order;
      if (!slope.double_lap) sheet.left = sheet.right = SheetEdge::barrier;
      out.sheets.push_back(std::move(sheet));
    }
    order += 2;
  }
  out.eaves = slope.eaves;
  out.driven = std::max(slope.slope->covering.length.value.in_mm() - 2 * slope.gauge, 0.0);
  // The outermost half units have no neighbours to drop their water on.
  out.ours.push_back(box(pitch, right - pitch, 0, slope.top - kUnderRidge));
  add_ridge(slope, {0, right, 0, slope.top}, out);
  return out;
}

}  // namespace lapwright::check
