#include <lapwright/check/as_found.h>

#include <algorithm>
#include <limits>
#include <optional>
#include <utility>

namespace lapwright::check {

namespace {

using geom::Vec3;
using job::FoundKind;

std::optional<PlacedLead::Extent> extent_of(const PlacedLead& lead) {
  const auto on_roof = lead.extent(Lies::on_roof);
  return lead.kind == "soaker" && on_roof ? on_roof
         : lead.extent(Lies::on_face)     ? lead.extent(Lies::on_face)
                                          : on_roof;
}

// Indices of the leads that the line speaks of.
std::vector<std::size_t> spoken_of(const job::AsBuilt& found, const PlacedSlope& slope) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < slope.leads.size(); ++i) {
    const PlacedLead& lead = slope.leads[i];
    if (lead.junction != found.junction || lead.kind != found.piece) continue;
    if (!found.face.empty() && lead.face != found.face) continue;
    if (found.course && lead.course != *found.course - 1) continue;
    out.push_back(i);
  }
  if (!found.number) return out;
  std::stable_sort(out.begin(), out.end(), [&](std::size_t a, std::size_t b) {
    const auto ea = extent_of(slope.leads[a]);
    const auto eb = extent_of(slope.leads[b]);
    return (ea ? ea->s0 : 0) < (eb ? eb->s0 : 0);
  });
  const auto n = static_cast<std::size_t>(*found.number);
  if (n > out.size()) return {};
  return {out[n - 1]};
}

// The piece that this one laps over: of the same kind at the same face, next below.
PlacedLead* below(PlacedSlope& slope, const PlacedLead& lead) {
  const auto here = extent_of(lead);
  PlacedLead* best = nullptr;
  double high = std::numeric_limits<double>::lowest();
  for (PlacedLead& other : slope.leads) {
    if (&other == &lead || other.kind != lead.kind || other.junction != lead.junction ||
        other.face != lead.face)
      continue;
    const auto there = extent_of(other);
    if (!here || !there || there->s0 >= here->s0 || there->s0 <= high) continue;
    high = there->s0;
    best = &other;
  }
  return best;
}

template <class Change>
void each_point(PlacedLead& lead, const Change& change) {
  for (PlacedPanel& panel : lead.panels) {
    for (Vec3& p : panel.ring) change(panel, p);
  }
}

void cut_short(PlacedLead& lead, double by) {
  double head = std::numeric_limits<double>::lowest();
  each_point(lead, [&](const PlacedPanel&, const Vec3& p) { head = std::max(head, p.y); });
  each_point(lead, [&](const PlacedPanel&, Vec3& p) { p.y = std::min(p.y, head - by); });
}

void pierce(const job::AsBuilt& found, const PlacedSlope& slope, PlacedLead& lead) {
  const auto on_roof = lead.extent(Lies::on_roof);
  const auto e = on_roof ? on_roof : lead.extent(Lies::on_face);
  if (!e) return;
  const bool from_right = std::any_of(slope.faces.begin(), slope.faces.end(), [&](const PlacedFace& f) {
    return f.junction == lead.junction && f.face.name == lead.face && f.face.kind == job::FaceKind::side &&
           f.face.hand == job::Hand::right;
  });
  const double in = found.across ? found.across->in_mm() : (e->u1 - e->u0) / 2;
  const double up = found.up ? found.up->in_mm() : (e->s1 - e->s0) / 2;
  lead.pierced.push_back({from_right ? e->u1 - in : e->u0 + in, e->s0 + up});
}

void change(const job::AsBuilt& found, PlacedSlope& slope, PlacedLead& lead) {
  const double by = found.by ? found.by->in_mm() : 0;
  switch (found.kind) {
    case FoundKind::cut_short:
      return cut_short(lead, by);
    case FoundKind::shifted:
      return each_point(lead, [&](const PlacedPanel&, Vec3& p) { p.y -= by; });
    case FoundKind::pierced:
      return pierce(found, slope, lead);
    case FoundKind::lap: {
      const PlacedLead* under = below(slope, lead);
      if (under == nullptr) return;
      const double more = extent_of(*under)->s1 - extent_of(lead)->s0 - by;
      return each_point(lead, [&](const PlacedPanel&, Vec3& p) { p.y += more; });
    }
    case FoundKind::reversed: {
      PlacedLead* under = below(slope, lead);
      if (under != nullptr) std::swap(under->order, lead.order);
      return;
    }
    case FoundKind::loose:
      for (PlacedPanel& panel : lead.panels) {
        if (panel.lies == Lies::in_masonry) panel.lies = Lies::elsewhere;
      }
      return;
    case FoundKind::low:
      return each_point(lead, [&](const PlacedPanel& panel, Vec3& p) {
        if (panel.lies != Lies::on_roof) p.z = std::min(p.z, by);
      });
    case FoundKind::missing:
    case FoundKind::detail:
      return;
  }
}

}  // namespace

std::vector<PlacedLead> apply(const job::AsBuilt& found, PlacedRoof& roof) {
  std::vector<PlacedLead> was;
  for (PlacedSlope& slope : roof.slopes) {
    if (slope.slope->name != found.slope || found.kind == FoundKind::detail) continue;
    const std::vector<std::size_t> which = spoken_of(found, slope);
    for (const std::size_t i : which) was.push_back(slope.leads[i]);
    if (found.kind == FoundKind::missing) {
      std::vector<PlacedLead> left;
      for (std::size_t i = 0; i < slope.leads.size(); ++i) {
        if (std::find(which.begin(), which.end(), i) == which.end())
          left.push_back(std::move(slope.leads[i]));
      }
      slope.leads = std::move(left);
      // Lead belongs here, though none may be left.
      for (PlacedFace& face : slope.faces) {
        if (!which.empty() && face.junction == found.junction) face.bare_is_wrong = true;
      }
      continue;
    }
    for (const std::size_t i : which) change(found, slope, slope.leads[i]);
  }
  return was;
}

}  // namespace lapwright::check
