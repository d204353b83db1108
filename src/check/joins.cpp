// Valleys and hips, measured along their line: lead in one unbroken run from the eaves to the line's head,
// each piece lapping the one below by what the line's own pitch asks; of a mitred line, a soaker under every
// course.
#include "measure.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/practice/laps.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace lapwright::check {

namespace {

using geom::Vec3;

// Beside the fold, where a sheet that lies below the slope's plane is met as well.
constexpr double kBeside = 40;  // mm
constexpr double kHand = 5;     // mm
// At the head of a valley its lead goes on over the ridge: as far as what ends a slope at its top laps it.
constexpr double kOver = 75;  // mm

struct Span {
  double from = 0;  // up the slope
  double to = 0;
  const PlacedLead* lead = nullptr;
};

struct Line {
  double foot = 0;  // u at the eaves, already beside the fold
  double drift = 0;
};

// Where the line runs over this ring, from its first crossing to its last.
void meet(const Line& line, const std::vector<Vec3>& ring, Span& span) {
  const auto off = [&](const Vec3& p) { return p.x - (line.foot + line.drift * p.y); };
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec3& a = ring[i];
    const Vec3& b = ring[(i + 1) % ring.size()];
    const double da = off(a);
    const double db = off(b);
    if ((da > 0) == (db > 0)) continue;
    const double s = a.y + (b.y - a.y) * da / (da - db);
    span.from = std::min(span.from, s);
    span.to = std::max(span.to, s);
  }
}

std::vector<Span> spans_along(const PlacedSlope& slope, const std::string& junction, const Line& line) {
  std::vector<Span> out;
  for (const PlacedLead& lead : slope.leads) {
    if (lead.junction != junction) continue;
    Span span{1e300, -1e300, &lead};
    for (const PlacedPanel& panel : lead.panels) {
      if (panel.lies == Lies::on_roof && std::abs(panel.normal.z) > 0.95) meet(line, panel.ring, span);
    }
    if (span.to > span.from) out.push_back(span);
  }
  std::stable_sort(out.begin(), out.end(), [](const Span& a, const Span& b) { return a.from < b.from; });
  return out;
}

void measure_open_valley(Measures& m, const job::SlopeJoin& join, const Measures::At& at,
                         const std::vector<Span>& spans) {
  const job::JoinSide& side = join.line.sides[join.side];
  const double along = square_root(1 + side.drift * side.drift);
  const double lap = practice::lap_down_slope(join.line.true_pitch, m.survey.exposure, m.pack).in_mm() -
                     tolerance::kPublishedRounding.in_mm();
  const std::string& source = m.pack.rule("lap.rise").source;
  const auto open = [&](double s) {
    m.broken("check.valley_open", at, {{"s", s, "mm"}}, "common practice, no source");
  };
  double reached = m.slope.eaves;
  const Span* before = nullptr;
  for (const Span& span : spans) {
    if (span.from > reached + kHand) {
      open(reached);
    } else if (before != nullptr) {
      m.least("check.valley_lap", at, (reached - span.from) * along, lap, source);
    }
    if (span.to > reached) {
      reached = span.to;
      before = &span;
    }
  }
  if (reached < side.run.in_mm() + kOver) open(reached);
}

void measure_mitred(Measures& m, const job::SlopeJoin& join, Measures::At at,
                    const std::vector<Span>& spans) {
  const job::JoinSide& side = join.line.sides[join.side];
  std::set<std::int64_t> courses;
  for (const PlacedUnit& unit : m.slope.units) {
    if (unit.course >= 0 && unit.tail < side.run.in_mm() - kHand) courses.insert(unit.course);
  }
  for (const std::int64_t course : courses) {
    const bool any = std::any_of(spans.begin(), spans.end(),
                                 [&](const Span& span) { return span.lead->course == course; });
    if (any) continue;
    at.course = course;
    m.broken("check.mitre_open", at, {}, "common practice, no source");
  }
}

}  // namespace

void measure_joins(Measures& m) {
  if (!m.options.has(Part::join)) return;
  for (const job::SlopeJoin& join : m.slope.joins) {
    const job::Join& asked = *join.line.join;
    const job::JoinSide& side = join.line.sides[join.side];
    // Its lead is planned with the slope that is named first.
    if (asked.kind == job::JoinKind::ridge || join.side != 0) continue;
    const bool mitred = asked.detail == job::JoinDetail::mitred;
    if (asked.kind == job::JoinKind::hip && !mitred) continue;
    const bool at_left = side.hand == job::Hand::left;
    const std::string junction =
        std::string(name_of(asked.kind)) + " " + asked.slopes[0] + " / " + asked.slopes[1];
    const Line line{(at_left ? 0 : m.slope.width) + (at_left ? kBeside : -kBeside), side.drift};
    const Measures::At at{junction, "", -2};
    const std::vector<Span> spans = spans_along(m.slope, junction, line);
    if (mitred) {
      measure_mitred(m, join, at, spans);
    } else {
      measure_open_valley(m, join, at, spans);
    }
  }
}

}  // namespace lapwright::check
