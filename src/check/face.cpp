// Rain on a wall: it runs plumb down the face until a turned-in edge leads it out, then down the outside of
// the lead, from piece to piece, to the roof. What stays on the face and meets an upstand's edge, or the gap
// beside the roof, has got behind the lead. Every plumb line is judged: between two corners of the lead
// nothing changes.
#include "measure.h"

#include <lapwright/base/trig.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

namespace lapwright::check {

namespace {

using geom::Vec3;

struct Point {
  double x = 0;  // along the plumb line's number: constant down a plumb line
  double y = 0;  // up the face
};

struct Sheeted {
  const PlacedLead* lead = nullptr;
  std::vector<Point> ring;
  std::vector<std::pair<Point, Point>> turned_in;
  bool reaches_roof = false;  // it goes on down over the roof
};

struct Span {
  const Sheeted* sheet = nullptr;
  double low = 0;
  double high = 0;
  bool turned_in = false;
};

constexpr double kNear = 1.5;       // mm
constexpr double kUnderRidge = 75;  // mm: what ends the slope at its top laps this much
constexpr double kShows = 25;       // mm: what is dressed down or trimmed without a word

bool touches(const Sheeted& sheet, double x, double y) {
  return std::any_of(sheet.turned_in.begin(), sheet.turned_in.end(), [&](const auto& edge) {
    const auto& [a, b] = edge;
    if (x < std::min(a.x, b.x) - kNear || x > std::max(a.x, b.x) + kNear) return false;
    const double run = b.x - a.x;
    const double at = std::abs(run) < 1e-9 ? a.y : a.y + (b.y - a.y) * std::clamp((x - a.x) / run, 0.0, 1.0);
    return std::abs(at - y) < kNear;
  });
}

std::vector<Span> spans_at(const std::vector<Sheeted>& sheets, double x) {
  std::vector<Span> out;
  for (const Sheeted& sheet : sheets) {
    std::vector<double> ys;
    for (std::size_t i = 0; i < sheet.ring.size(); ++i) {
      const Point& a = sheet.ring[i];
      const Point& b = sheet.ring[(i + 1) % sheet.ring.size()];
      if ((a.x < x) == (b.x < x)) continue;
      ys.push_back(a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x));
    }
    std::sort(ys.begin(), ys.end());
    for (std::size_t i = 0; i + 1 < ys.size(); i += 2) {
      if (ys[i + 1] - ys[i] < 0.5) continue;
      out.push_back({&sheet, ys[i], ys[i + 1], touches(sheet, x, ys[i + 1])});
    }
  }
  // From the highest edge down; of two at one height the outer first.
  std::stable_sort(out.begin(), out.end(), [](const Span& a, const Span& b) {
    if (std::abs(a.high - b.high) > kNear) return a.high > b.high;
    return a.sheet->lead->order > b.sheet->lead->order;
  });
  return out;
}

struct Behind {
  bool leaks = false;
  double y = 0;
  const PlacedLead* lead = nullptr;  // that it got behind; none: there was nothing
};

// `foot`: where the face meets the units.
Behind run_down(const std::vector<Span>& spans, double foot, double& shows) {
  double y = 1e300;
  const Span* on = nullptr;  // whose outside it runs down
  for (std::size_t guard = 0; guard < 2 * spans.size() + 4; ++guard) {
    if (on == nullptr) {
      const Span* next = nullptr;
      for (const Span& s : spans) {
        if (s.high < y - 1e-9 && (next == nullptr || s.high > next->high + kNear)) next = &s;
      }
      if (next == nullptr) return {true, std::min(y, foot), nullptr};
      if (next->turned_in) {
        on = next;
        continue;
      }
      // An upstand that shows over the inner corner of a step: the step below its edge still leads the rain
      // out, and how far it shows is judged on its own.
      const Span* led_out = nullptr;
      for (const Span& s : spans) {
        if (s.turned_in && s.high <= next->high && s.sheet->lead->order > next->sheet->lead->order &&
            (led_out == nullptr || s.high > led_out->high))
          led_out = &s;
      }
      if (led_out != nullptr) shows = std::max(shows, next->high - led_out->high);
      if (led_out != nullptr) {
        on = led_out;
        continue;
      }
      // Not let into the wall: water gets behind it. Behind a piece that only hangs there the face goes on.
      if (next->sheet->reaches_roof) return {true, next->high, next->sheet->lead};
      y = next->high;
      continue;
    }
    if (on->sheet->reaches_roof || on->low <= foot - 2) return {};
    const Span* under = nullptr;
    for (const Span& s : spans) {
      if (s.sheet->lead->order >= on->sheet->lead->order) continue;
      if (s.low > on->low - kNear || s.high < on->low - kNear) continue;
      if (under == nullptr || s.sheet->lead->order > under->sheet->lead->order) under = &s;
    }
    y = on->low;
    on = under;
  }
  return {};
}

// How far the flashing covers the upstand that stands highest there. Nothing where there is none, or no
// flashing.
std::optional<double> over_upstand(const std::vector<Span>& spans) {
  const Span* up = nullptr;
  for (const Span& s : spans) {
    if (s.sheet->reaches_roof && (up == nullptr || s.high > up->high)) up = &s;
  }
  if (up == nullptr || up->turned_in) return std::nullopt;
  std::optional<double> lowest;
  for (const Span& cover : spans) {
    if (cover.sheet->lead->order <= up->sheet->lead->order || cover.sheet->reaches_roof) continue;
    lowest = std::min(lowest.value_or(cover.low), cover.low);
  }
  if (!lowest) return std::nullopt;
  return up->high - *lowest;
}

void trace_face(Measures& m, const PlacedFace& face) {
  const Vec3 down{0, -sin_deg(m.slope.pitch), -cos_deg(m.slope.pitch)};
  const double across = dot(down, face.frame.along) / dot(down, face.frame.up);
  const auto point = [&](const Vec3& p) {
    const Vec3 d = p - face.frame.foot;
    const double y = dot(d, face.frame.up);
    return Point{dot(d, face.frame.along) - across * y, y};
  };
  std::vector<Sheeted> sheets;
  for (const PlacedLead& lead : m.slope.leads) {
    if (lead.junction != face.junction) continue;
    const bool on_roof = lead.extent(Lies::on_roof).has_value();
    std::vector<std::pair<Point, Point>> turned_in;
    for (const PlacedPanel& panel : lead.panels) {
      if (panel.lies != Lies::in_masonry || lead.face != face.face.name) continue;
      for (std::size_t i = 0; i < panel.ring.size(); ++i) {
        const Vec3& a = panel.ring[i];
        const Vec3& b = panel.ring[(i + 1) % panel.ring.size()];
        if (std::abs(dot(a - face.frame.foot, face.frame.out)) < 1 &&
            std::abs(dot(b - face.frame.foot, face.frame.out)) < 1)
          turned_in.emplace_back(point(a), point(b));
      }
    }
    for (const PlacedPanel& panel : lead.panels) {
      if (panel.lies != Lies::on_face) continue;
      const bool here = std::all_of(panel.ring.begin(), panel.ring.end(), [&](const Vec3& p) {
        return std::abs(dot(p - face.frame.foot, face.frame.out)) < 1;
      });
      if (!here) continue;
      Sheeted sheet;
      sheet.lead = &lead;
      sheet.reaches_roof = on_roof;
      for (const Vec3& p : panel.ring) sheet.ring.push_back(point(p));
      sheet.turned_in = turned_in;
      // What is boxed out above a cheek keeps the rain off; a saddle's upstand is let in when it is fitted.
      if (lead.kind == "cheek-flashing" || lead.kind == "saddle") {
        for (std::size_t i = 0; i < sheet.ring.size(); ++i) {
          sheet.turned_in.emplace_back(sheet.ring[i], sheet.ring[(i + 1) % sheet.ring.size()]);
        }
      }
      sheets.push_back(std::move(sheet));
    }
  }
  const double foot = m.slope.face / face.frame.up.z;
  const double shift = across * foot;
  std::vector<double> xs{-shift, face.frame.length.in_mm() - shift};
  for (const Sheeted& sheet : sheets) {
    for (const Point& p : sheet.ring) {
      if (p.x > xs[0] && p.x < xs[1]) xs.push_back(p.x);
    }
  }
  const double first = xs[0];
  const double last = xs[1];
  std::sort(xs.begin(), xs.end());
  constexpr double kEnds = 10;  // mm: what ends a wall is not the face's affair
  constexpr double kEndsOfLine = 250;
  constexpr double kLead = 150;  // mm up the face: as high as lead usually goes
  double cover_least = 1e300;
  bool said = false;
  double shows = 0;
  for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
    if (xs[i + 1] - xs[i] < 1) continue;
    const double x = (xs[i] + xs[i + 1]) / 2;
    const double ends = face.kind == job::JunctionKind::wall ? kEndsOfLine : kEnds;
    if (x < first + ends || x > last - ends) continue;
    const std::vector<Span> spans = spans_at(sheets, x);
    // Near the wall's upper end a plumb line leaves the face before it meets the lead.
    double highest = foot + kLead;
    for (const Span& s : spans) highest = std::max(highest, s.high);
    if (x + across * highest > face.frame.length.in_mm() - 2) continue;
    if (const auto over = over_upstand(spans)) cover_least = std::min(cover_least, *over);
    const Behind behind = run_down(spans, foot, shows);
    if (!behind.leaks || said || !m.options.has(Part::face)) continue;
    const Vec3 at = face.frame.foot + (x + across * behind.y) * face.frame.along + behind.y * face.frame.up;
    if (at.y > m.slope.top - kUnderRidge && face.face.kind == job::FaceKind::side) continue;
    said = true;
    std::int64_t course = -2;
    for (const PlacedUnit& unit : m.slope.units) {
      if (unit.tail <= at.y && unit.course > course) course = unit.course;
    }
    m.broken(behind.lead == nullptr ? "check.wall_open" : "check.behind_lead",
             {face.junction, face.face.name, course},
             {{"mark", behind.lead == nullptr ? std::string() : behind.lead->mark, ""},
              {"u", at.x, "mm"},
              {"s", at.y, "mm"}},
             "common practice, no source");
  }
  if (shows > kShows && m.options.has(Part::face)) {
    m.broken("check.upstand_shows", {face.junction, face.face.name, -2}, {{"value", shows, "mm"}},
             "common practice, no source", job::Level::doubt);
  }
  if (cover_least < 1e299 && m.options.has(Part::cover)) {
    const practice::Rule& rule = m.pack.rule(face.face.kind == job::FaceKind::back ? "back_gutter.cover_lap"
                                                                                   : "flashing.over_upstand");
    m.least("check.over_upstand", {face.junction, face.face.name, -2}, cover_least, rule);
  }
}

}  // namespace

void trace_faces(Measures& m) {
  // On a slope that is nearly upright itself plumb lines run along it, and say nothing about its sides.
  constexpr double kNearlyUpright = 75;  // degrees
  if (m.slope.pitch > kNearlyUpright) return;
  for (const PlacedFace& face : m.slope.faces) {
    if (face.face.kind == job::FaceKind::round || face.frame.length.in_mm() < 1) continue;
    const bool any = std::any_of(m.slope.leads.begin(), m.slope.leads.end(),
                                 [&](const PlacedLead& l) { return l.junction == face.junction; });
    if (any) trace_face(m, face);
  }
}

}  // namespace lapwright::check
