#include "found.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace lapwright::check {

using geom::Vec3;

void lay_asked_covers(PlacedSlope& slope, const practice::Pack& pack) {
  if (!slope.double_lap || slope.units.empty()) return;
  for (PlacedFace& face : slope.faces) {
    if (face.face.kind != job::FaceKind::side && face.face.kind != job::FaceKind::skew) continue;
    if (face.asked != job::Detail::cover_flashing && face.asked != job::Detail::step_and_cover) continue;
    const bool any = std::any_of(slope.leads.begin(), slope.leads.end(), [&](const PlacedLead& l) {
      return l.junction == face.junction && l.face == face.face.name;
    });
    if (any) continue;
    const double width = pack.number("cover.width");
    const double high = pack.number("chase.height");
    const double deep = pack.number("step.turn_in");
    const Vec3 a = face.frame.foot + (slope.face / face.frame.up.z) * face.frame.up;
    const Vec3 b = a + face.frame.length.in_mm() * face.frame.along;
    const Vec3 over = width * face.frame.away;
    const Vec3 up = high * face.frame.up;
    const Vec3 in = -deep * face.frame.out;
    PlacedLead lead;
    lead.kind = "cover-flashing";
    lead.mark = "cover";
    lead.junction = face.junction;
    lead.face = face.face.name;
    lead.code = 4;
    lead.order = std::numeric_limits<std::int64_t>::max() / 2;
    lead.piece = std::numeric_limits<std::size_t>::max();
    lead.panels.push_back({{a, b, b + over, a + over}, {0, 0, 1}, Lies::elsewhere, 0});
    lead.panels.push_back({{a, b, b + up, a + up}, face.frame.out, Lies::elsewhere, 0});
    lead.panels.push_back({{a + up, b + up, b + up + in, a + up + in}, face.frame.up, Lies::elsewhere, 1});
    settle(lead, slope);
    slope.leads.push_back(std::move(lead));
    face.bare_is_wrong = true;
  }
}

}  // namespace lapwright::check
