#include "measure.h"

#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>
#include <lapwright/job/facts.h>
#include <lapwright/practice/laps.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string_view>
#include <utility>

namespace lapwright::check {

namespace {

using geom::Vec3;
using job::Level;

// What a hand and a tape make of a length; anything that misses its limit by less holds.
constexpr double kSlack = 0.5;  // mm

struct CourseLine {
  double tail = 1e300;
  double head = -1e300;
};

std::map<std::int64_t, CourseLine> courses_of(const PlacedSlope& slope) {
  std::map<std::int64_t, CourseLine> out;
  for (const PlacedUnit& unit : slope.units) {
    CourseLine& c = out[unit.course];
    c.tail = std::min(c.tail, unit.tail);
    c.head = std::max(c.head, unit.head);
  }
  return out;
}

struct Limit {
  double value = 0;
  std::string source;
};

std::optional<Limit> headlap_limit(const Measures& m) {
  const job::Covering& c = m.slope.slope->covering;
  if (c.headlap) return Limit{c.headlap->in_mm(), "survey"};
  if (c.kind == job::CoveringKind::plain_tile) {
    const practice::Rule& rule =
        m.pack.rule(job::is_exposed(m.survey.exposure) ? "headlap.plain_tile_severe" : "headlap.plain_tile");
    return Limit{rule.value, rule.source};
  }
  if (c.kind != job::CoveringKind::slate) return std::nullopt;
  const auto answers =
      m.pack.slate_headlaps(c.length.value, c.width.value, m.slope.slope->pitch.value, m.survey.exposure);
  const practice::HeadlapAnswer* answer = practice::default_headlap(answers);
  if (answer == nullptr || !answer->headlap) return std::nullopt;
  return Limit{answer->headlap->in_mm(), answer->source};
}

bool is_cover(const std::string& kind) {
  return kind == "step-flashing" || kind == "cover-flashing" || kind == "step-and-cover" || kind == "apron";
}

// A place without its course.
std::string_view said_at(const std::string& where) {
  const auto course = where.find(" / course ");
  return std::string_view(where).substr(0, course);
}

}  // namespace

std::string Measures::where(const At& at) const {
  std::string out = slope.slope->name;
  if (!at.junction.empty()) out += " / " + at.junction;
  if (!at.face.empty()) out += " / " + at.face;
  if (at.course >= -1) out += " / course " + std::to_string(at.course + 1);
  return out;
}

void Measures::least(const std::string& rule, const At& at, double value, double limit,
                     const std::string& source, Level level) {
  take(
      {rule, slope.slope->name, at.junction, where(at), value, limit, false, value >= limit - kSlack, source},
      at, level);
}

void Measures::most(const std::string& rule, const At& at, double value, double limit,
                    const std::string& source, Level level) {
  take({rule, slope.slope->name, at.junction, where(at), value, limit, true, value <= limit + kSlack, source},
       at, level);
}

void Measures::take(job::Measure measure, const At& at, Level level) {
  if (!measure.holds) {
    // One finding a rule and face, with the worst value.
    for (job::Finding& f : out_.findings) {
      if (f.rule != measure.rule || !f.value || said_at(f.where) != said_at(measure.where)) continue;
      const bool worse = measure.at_most ? measure.value > *f.value : measure.value < *f.value;
      if (worse) f = finding_of(measure, at, level);
      return keep(std::move(measure));
    }
    out_.findings.push_back(finding_of(measure, at, level));
  }
  keep(std::move(measure));
}

job::Finding Measures::finding_of(const job::Measure& measure, const At& at, Level level) {
  return {level,
          measure.rule,
          {{"value", measure.value, "mm"},
           {"limit", measure.limit, "mm"},
           {"course", static_cast<double>(at.course + 1), ""}},
          "",
          measure.value,
          measure.limit,
          measure.source,
          measure.where};
}

void Measures::keep(job::Measure measure) {
  for (job::Measure& known : out_.proof.measures) {
    if (known.rule != measure.rule || known.slope != measure.slope || known.junction != measure.junction)
      continue;
    const double a = known.at_most ? known.limit - known.value : known.value - known.limit;
    const double b = measure.at_most ? measure.limit - measure.value : measure.value - measure.limit;
    if (b < a) known = std::move(measure);
    return;
  }
  out_.proof.measures.push_back(std::move(measure));
}

void Measures::broken(const std::string& rule, const At& at, const job::Params& params,
                      const std::string& source, Level level) {
  job::Params all = params;
  all.push_back({"course", static_cast<double>(at.course + 1), ""});
  out_.findings.push_back({level, rule, std::move(all), "", std::nullopt, std::nullopt, source, where(at)});
}

void measure_covering(Measures& m) {
  const auto courses = courses_of(m.slope);
  const double top = m.slope.top - 0.5;
  if (m.options.has(Part::headlap)) {
    const auto limit = headlap_limit(m);
    const std::int64_t over = m.slope.double_lap ? 2 : 1;
    const double dead = job::is_head_nailed(m.slope.slope->covering) ? m.pack.number("slate.head_nail") : 0;
    for (const auto& [course, line] : courses) {
      if (course < 1 || !limit) continue;
      // The under-course has the head that a full unit below the eaves course would have.
      const auto below = courses.find(course - over);
      if (below == courses.end()) continue;
      if (below->second.head > top) continue;  // cut at the top edge: the ridge laps it
      m.least("check.headlap", {"", "", course}, below->second.head - dead - line.tail, limit->value,
              limit->source);
    }
  }
  if (!m.slope.double_lap || !m.options.has(Part::sidelap)) return;
  const practice::Rule& rule = m.pack.rule(
      m.slope.slope->covering.kind == job::CoveringKind::slate ? "bond.sidelap_slate" : "bond.sidelap_tile");
  std::vector<PlacedLead::Extent> wide;
  for (const PlacedLead& lead : m.slope.leads) {
    if (lead.kind == "soaker") continue;
    if (const auto e = lead.extent(Lies::on_roof)) wide.push_back(*e);
  }
  struct Joint {
    double u0;
    double u1;
  };
  std::map<std::int64_t, std::vector<Joint>> joints;
  constexpr double kJoint = 20;  // mm: wider is not a joint
  for (std::size_t i = 1; i < m.slope.units.size(); ++i) {
    const PlacedUnit& a = m.slope.units[i - 1];
    const PlacedUnit& b = m.slope.units[i];
    if (a.course != b.course || b.u0 - a.u1 > kJoint || b.u0 < a.u1 - 0.01) continue;
    if (a.strips.size() > 1 || b.strips.size() > 1) continue;  // cut to a line: no upright joint there
    const bool under_lead = std::any_of(wide.begin(), wide.end(), [&](const PlacedLead::Extent& e) {
      return a.u1 > e.u0 && b.u0 < e.u1 && a.tail < e.s1 + m.slope.gauge && a.head > e.s0 - m.slope.gauge;
    });
    if (under_lead) continue;
    joints[a.course].push_back({a.u1, b.u0});
  }
  for (const auto& [course, here] : joints) {
    const auto below = joints.find(course - 1);
    if (below == joints.end() || course < 1) continue;
    double least = 1e300;
    std::size_t k = 0;
    for (const Joint& j : here) {
      while (k + 1 < below->second.size() && below->second[k].u1 < j.u0) ++k;
      for (const std::size_t i : {k, k > 0 ? k - 1 : k}) {
        const Joint& o = below->second[i];
        least = std::min(least, std::max({0.0, j.u0 - o.u1, o.u0 - j.u1}));
      }
    }
    if (least < 1e300)
      m.least("check.sidelap", {"", "", course}, least, rule.value - tolerance::kPublishedRounding.in_mm(),
              rule.source, Level::doubt);
  }
}

void measure_soakers(Measures& m) {
  const auto courses = courses_of(m.slope);
  const practice::Rule& leg_rule = m.pack.rule("soaker.leg_least");
  const practice::Rule& proud_rule = m.pack.rule("soaker.proud");
  const practice::Rule& lap_rule = m.pack.rule("soaker.lap_usual_least");
  for (const PlacedFace& face : m.slope.faces) {
    std::map<std::int64_t, const PlacedLead*> soakers;
    for (const PlacedLead& lead : m.slope.leads) {
      if (lead.kind == "soaker" && lead.junction == face.junction && lead.face == face.face.name)
        soakers[lead.course] = &lead;
    }
    if (soakers.empty()) continue;
    const double from = face.face.from.s.in_mm();
    const double to = face.face.to.s.in_mm();
    const bool square = face.face.kind == job::FaceKind::side;
    const PlacedLead* before = nullptr;
    for (const auto& [course, line] : courses) {
      const auto next = courses.find(course + 1);
      const double margin_to = next == courses.end() ? m.slope.top : next->second.tail;
      const Measures::At at{face.junction, face.face.name, course};
      const auto found = soakers.find(course);
      if (found == soakers.end()) {
        // Of a course that only just begins below the face's upper end nothing is asked.
        constexpr double kHand = 3.5;  // mm
        const double beside = std::min(margin_to, to - kHand) - std::max(line.tail, from);
        bool any_unit = false;
        for (const PlacedUnit& unit : m.slope.units) {
          if (unit.course != course) continue;
          const double u = face.face.from.u.in_mm();
          any_unit = any_unit || !square || std::min(std::abs(unit.u0 - u), std::abs(unit.u1 - u)) < 100;
        }
        const double s_mid = std::max(line.tail, from) + std::max(beside, 0.0) / 2;
        const bool other_lead =
            std::any_of(m.slope.leads.begin(), m.slope.leads.end(), [&](const PlacedLead& l) {
              if ((l.kind != "cheek-flashing" && l.kind != "back-gutter") || l.junction != face.junction)
                return false;
              const auto on = l.extent(Lies::on_roof);
              return on && on->s0 <= s_mid && s_mid <= on->s1 &&
                     (l.kind == "back-gutter" || l.face == face.face.name);
            });
        if (other_lead) {
          before = nullptr;
          continue;
        }
        const bool between = course > soakers.begin()->first && course < soakers.rbegin()->first;
        if (course >= 0 && any_unit && (between || beside > 0.01) && m.options.has(Part::soaker_each_course))
          m.broken("check.soaker_missing", at, {}, "common practice, no source");
        before = nullptr;
        continue;
      }
      const PlacedLead& lead = *found->second;
      const auto leg = lead.extent(Lies::on_roof);
      const auto up = lead.extent(Lies::on_face);
      if (!leg) {
        m.broken("check.soaker_missing", at, {}, "common practice, no source");
        continue;
      }
      if (square && m.options.has(Part::leg)) {
        double under = -1e300;
        const double s = std::max(leg->s0, from) + 1;
        for (const PlacedUnit& unit : m.slope.units) {
          if (unit.course != course || unit.u1 < leg->u0 || unit.u0 > leg->u1) continue;
          // The unit's edge beside the face, at the height of the soaker.
          for (const Strip& strip : unit.strips) {
            if (s + 0.0 > std::max(strip.hi0, strip.hi1)) continue;
            const double reach = face.face.hand == job::Hand::left ? leg->u1 - std::max(strip.u0, leg->u0)
                                                                   : std::min(strip.u1, leg->u1) - leg->u0;
            under = std::max(under, reach);
          }
        }
        // Rows end up to a joint short of where they may: what a hand cuts is forgiven.
        if (under > -1e300) {
          m.least("check.leg", at, under, leg_rule.value - tolerance::kHandCut.in_mm(), leg_rule.source);
        }
      }
      if (m.options.has(Part::tail)) {
        m.least("check.tail", at, leg->s0 - line.tail, 0, "common practice, no source", Level::doubt);
      }
      if (m.options.has(Part::proud)) {
        m.least("check.proud", at, up ? up->n1 - m.slope.face : -m.slope.face, proud_rule);
      }
      if (before != nullptr && m.options.has(Part::soaker_lap)) {
        const auto below = before->extent(Lies::on_roof);
        // The bench and the roof both round to the nearest ten.
        m.least("check.soaker_lap", at, below->s1 - leg->s0,
                lap_rule.value - tolerance::kPublishedRounding.in_mm(), lap_rule.source, Level::doubt);
      }
      before = &lead;
    }
  }
}

namespace {

// Along a face or a line: where a piece begins and ends.
struct Along {
  const PlacedLead* lead = nullptr;
  double from = 0;
  double to = 0;
};

template <class Keep>
std::vector<Along> along(const PlacedSlope& slope, Vec3 foot, Vec3 direction, const Keep& keep) {
  std::vector<Along> out;
  for (const PlacedLead& lead : slope.leads) {
    Along a{&lead, 1e300, -1e300};
    for (const PlacedPanel& panel : lead.panels) {
      if (!keep(lead, panel)) continue;
      for (const Vec3& p : panel.ring) {
        const double x = dot(p - foot, direction);
        a.from = std::min(a.from, x);
        a.to = std::max(a.to, x);
      }
    }
    if (a.to > a.from) out.push_back(a);
  }
  std::stable_sort(out.begin(), out.end(), [](const Along& a, const Along& b) { return a.from < b.from; });
  return out;
}

void measure_turn_in(Measures& m, const PlacedFace& face, const PlacedLead& lead, const Measures::At& at) {
  const practice::Rule& turn_in = m.pack.rule("step.turn_in");
  double deepest = 0;
  double lowest = 1e300;
  for (const PlacedPanel& panel : lead.panels) {
    if (panel.lies != Lies::in_masonry) continue;
    for (const Vec3& p : panel.ring) {
      const double d = -dot(p - face.frame.foot, face.frame.out);
      deepest = std::max(deepest, d);
      if (d < 1) lowest = std::min(lowest, p.z);
    }
  }
  if (m.options.has(Part::turn_in)) m.least("check.turn_in", at, deepest, turn_in);
  if (!m.options.has(Part::clearance) || lowest > 1e299) return;
  const bool steps = lead.kind == "step-flashing" || lead.kind == "step-and-cover";
  const bool chased = lead.kind == "cover-flashing" && face.face.kind != job::FaceKind::back;
  if (steps) m.least("check.clearance", at, lowest - m.slope.face, m.pack.rule("wall.water_line"));
  if (chased && face.frame.runs_at < 0.5) {
    m.least("check.chase_height", at, lowest - m.slope.face, m.pack.rule("chase.height"));
  }
}

}  // namespace

void measure_flashings(Measures& m) {
  const practice::Rule& along_rule = m.pack.rule("flashing.lap_along_wall");
  const double lap_down =
      practice::lap_down_slope(m.slope.slope->pitch.value, m.survey.exposure, m.pack).in_mm() -
      tolerance::kPublishedRounding.in_mm();
  const std::string lap_source = m.pack.rule("lap.rise").source;
  for (const PlacedFace& face : m.slope.faces) {
    if (face.face.kind == job::FaceKind::round) continue;
    const bool level = face.face.kind == job::FaceKind::top || face.face.kind == job::FaceKind::front ||
                       face.face.kind == job::FaceKind::back;
    const Measures::At at{face.junction, face.face.name, -2};
    for (const char* kind : {"step-flashing", "cover-flashing", "step-and-cover", "apron"}) {
      const auto pieces = along(m.slope, face.frame.foot, face.frame.along,
                                [&](const PlacedLead& lead, const PlacedPanel& panel) {
                                  return lead.kind == kind && lead.junction == face.junction &&
                                         lead.face == face.face.name && panel.lies == Lies::on_face;
                                });
      for (std::size_t i = 0; i < pieces.size(); ++i) {
        measure_turn_in(m, face, *pieces[i].lead, at);
        if (i == 0) continue;
        if (m.options.has(Part::lap_along)) {
          m.least("check.lap_along", at, pieces[i - 1].to - pieces[i].from, along_rule);
          if (!level && pieces[i].lead->order <= pieces[i - 1].lead->order)
            m.broken("check.lap_reversed", at, {}, "common practice, no source");
        }
      }
    }
    if (m.options.has(Part::lap_along) && !level) {
      // From the lowest upstand to the highest: past the last piece nothing covers them.
      const auto on_face = [&](bool cover) {
        return along(m.slope, face.frame.foot, face.frame.along,
                     [&](const PlacedLead& lead, const PlacedPanel& panel) {
                       return lead.junction == face.junction && lead.face == face.face.name &&
                              panel.lies == Lies::on_face &&
                              (cover ? is_cover(lead.kind) : lead.kind == "soaker");
                     });
      };
      const auto soakers = on_face(false);
      const auto covers = on_face(true);
      const auto furthest = [](const std::vector<Along>& all) {
        return std::max_element(all.begin(), all.end(),
                                [](const Along& a, const Along& b) { return a.to < b.to; })
            ->to;
      };
      // Steps begin where a joint allows it: the first upstand's end is trimmed on the spot.
      constexpr double kFirstStep = 30;  // mm
      const double hand = tolerance::kHandCut.in_mm();
      const bool stepped = !covers.empty() && covers.front().lead->kind != "cover-flashing";
      if (!soakers.empty() && !covers.empty() &&
          (furthest(covers) < std::min(furthest(soakers), face.frame.length.in_mm()) - hand ||
           covers.front().from > soakers.front().from + (stepped ? kFirstStep : hand)))
        m.broken("check.flashing_ends", at, {}, "common practice, no source");
    }
    if (m.options.has(Part::lap_down) && !level) {
      for (const char* kind : {"secret-gutter", "step-and-cover", "cover-flashing"}) {
        const auto pieces = along(m.slope, face.frame.foot, face.frame.along,
                                  [&](const PlacedLead& lead, const PlacedPanel& panel) {
                                    return lead.kind == kind && lead.junction == face.junction &&
                                           lead.face == face.face.name && panel.lies == Lies::on_roof;
                                  });
        for (std::size_t i = 1; i < pieces.size(); ++i) {
          m.least("check.lap_down", at, pieces[i - 1].to - pieces[i].from, lap_down, lap_source);
        }
      }
    }
    for (const PlacedLead& lead : m.slope.leads) {
      if (lead.junction != face.junction || lead.face != face.face.name) continue;
      double low = 1e300;
      double high = -1e300;
      double reach = 0;
      for (const PlacedPanel& panel : lead.panels) {
        for (const Vec3& p : panel.ring) {
          const double up = dot(p - face.frame.foot, face.frame.up);
          if (panel.lies == Lies::on_face) {
            low = std::min(low, up);
            high = std::max(high, up);
          }
          if (panel.lies == Lies::on_roof) reach = std::max(reach, dot(p - face.frame.foot, face.frame.away));
        }
      }
      if (m.options.has(Part::upstand)) {
        if (lead.kind == "apron")
          m.least("check.upstand", at, std::max(0.0, high - low), m.pack.rule("apron.upstand"));
        if (lead.kind == "back-gutter")
          m.least("check.upstand", at, std::max(0.0, high - low), m.pack.rule("back_gutter.upstand"));
      }
      if (lead.kind == "apron" && m.options.has(Part::cover)) {
        const practice::Rule& rule =
            m.pack.rule(job::is_exposed(m.survey.exposure) ? "apron.cover_severe" : "apron.cover");
        // Of a skew face the cover is counted up the slope.
        const double square = std::max(std::abs(face.frame.away.y), 0.1);
        const double lifted = m.slope.face * tan_deg(m.slope.pitch);
        m.least("check.cover", at, (reach + (level ? lifted : 0)) / square, rule);
      }
      if (m.options.has(Part::piece_length) && (is_cover(lead.kind) || lead.kind == "secret-gutter")) {
        const practice::Rule& longest = lead.kind == "secret-gutter" ? m.pack.rule("secret_gutter.piece_most")
                                        : lead.code >= 4             ? m.pack.rule("flashing.piece_most")
                                                         : m.pack.rule("flashing.piece_most_code_3");
        m.most("check.piece_length", at, lead.length, longest.value, longest.source);
      }
    }
  }
}

void measure_nails(Measures& m) {
  if (!m.options.has(Part::nails)) return;
  struct Flat {
    const PlacedLead* lead;
    std::vector<Strip> strips;
    double s0;
    double s1;
    double u0;
    double u1;
  };
  std::vector<Flat> flats;
  for (const PlacedLead& lead : m.slope.leads) {
    for (const PlacedPanel& panel : lead.panels) {
      if (panel.lies != Lies::on_roof || std::abs(panel.normal.z) < 0.95) continue;
      Flat flat{&lead, strips_of(panel.ring), 1e300, -1e300, 1e300, -1e300};
      for (const Vec3& p : panel.ring) {
        flat.s0 = std::min(flat.s0, p.y);
        flat.s1 = std::max(flat.s1, p.y);
        flat.u0 = std::min(flat.u0, p.x);
        flat.u1 = std::max(flat.u1, p.x);
      }
      flats.push_back(std::move(flat));
    }
    for (const Hole& hole : lead.pierced) {
      m.broken("check.pierced", {lead.junction, lead.face, lead.course},
               {{"u", hole.u, "mm"}, {"s", hole.s, "mm"}}, "common practice, no source");
    }
  }
  struct OverGutter {
    const PlacedLead* lead;
    double nails;
  };
  std::vector<OverGutter> over;
  for (const PlacedUnit& unit : m.slope.units) {
    for (const Hole& nail : unit.nails) {
      for (const Flat& flat : flats) {
        if (nail.s < flat.s0 || nail.s > flat.s1 || nail.u < flat.u0 || nail.u > flat.u1) continue;
        if (flat.lead->order >= order_of_course(unit.course)) continue;
        const bool inside = std::any_of(flat.strips.begin(), flat.strips.end(), [&](const Strip& s) {
          if (nail.u < s.u0 || nail.u > s.u1 || s.u1 <= s.u0) return false;
          const double t = (nail.u - s.u0) / (s.u1 - s.u0);
          return nail.s > s.lo0 + t * (s.lo1 - s.lo0) && nail.s < s.hi0 + t * (s.hi1 - s.hi0);
        });
        if (!inside) continue;
        // Over a gutter's leg or in a lining units are hung, clipped or nailed higher: said once a piece.
        if (flat.lead->kind != "soaker") {
          const auto known = std::find_if(
              over.begin(), over.end(), [&](const OverGutter& o) { return o.lead->mark == flat.lead->mark; });
          if (known == over.end()) {
            over.push_back({flat.lead, 1});
          } else {
            known->nails += 1;
          }
          continue;
        }
        m.broken("check.nail_through_lead", {flat.lead->junction, flat.lead->face, unit.course},
                 {{"mark", flat.lead->mark, ""}, {"u", nail.u, "mm"}, {"s", nail.s, "mm"}},
                 "common practice, no source");
      }
    }
  }
  for (const OverGutter& o : over) {
    m.broken("check.nails_over_lead", {o.lead->junction, o.lead->face, -2},
             {{"mark", o.lead->mark, ""}, {"nails", o.nails, ""}}, "common practice, no source",
             o.lead->kind == "mitred-soaker" ? Level::doubt : Level::note);
  }
}

void measure_stacks(Measures& m) {
  if (!m.options.has(Part::corner)) return;
  constexpr double kIn = 5;  // mm past the stack's side
  const auto covered = [&](const PlacedFace& face, double u, double s) {
    return std::any_of(m.slope.leads.begin(), m.slope.leads.end(), [&](const PlacedLead& lead) {
      if (lead.junction != face.junction || lead.kind == "soaker") return false;
      return std::any_of(lead.panels.begin(), lead.panels.end(), [&](const PlacedPanel& panel) {
        if (panel.lies != Lies::on_roof) return false;
        for (const Strip& strip : strips_of(panel.ring)) {
          if (u < strip.u0 || u > strip.u1) continue;
          const double t = (u - strip.u0) / (strip.u1 - strip.u0);
          if (s >= strip.lo0 + t * (strip.lo1 - strip.lo0) && s <= strip.hi0 + t * (strip.hi1 - strip.hi0))
            return true;
        }
        return false;
      });
    });
  };
  const auto gusset_at = [&](const PlacedFace& face, double u) {
    return std::any_of(m.slope.leads.begin(), m.slope.leads.end(), [&](const PlacedLead& lead) {
      if (lead.junction != face.junction || lead.face != face.face.name || lead.kind != "corner")
        return false;
      double u0 = 1e300;
      double u1 = -1e300;
      for (const PlacedPanel& panel : lead.panels) {
        for (const Vec3& p : panel.ring) {
          u0 = std::min(u0, p.x);
          u1 = std::max(u1, p.x);
        }
      }
      return u0 < u + kIn && u1 > u - kIn;
    });
  };
  for (const PlacedFace& face : m.slope.faces) {
    const Measures::At at{face.junction, face.face.name, -2};
    if (face.face.kind == job::FaceKind::front && face.welded) {
      // Past what the apron itself covers on the units.
      const double s = face.face.from.s.in_mm() + m.slope.face * tan_deg(m.slope.pitch) + 20;
      if (!covered(face, face.face.from.u.in_mm() - kIn, s) ||
          !covered(face, face.face.to.u.in_mm() + kIn, s))
        m.broken("check.corner_open", at, {}, "common practice, no source");
    }
    if (face.face.kind == job::FaceKind::back && face.welded) {
      // Past each side, where the gutter's upstand was cut to be folded round.
      if (!gusset_at(face, face.face.from.u.in_mm()) || !gusset_at(face, face.face.to.u.in_mm()))
        m.broken("check.corner_open", at, {}, "common practice, no source");
    }
    if (face.face.kind == job::FaceKind::side && face.through_ridge) {
      const double way = face.face.hand == job::Hand::left ? kIn : -kIn;
      if (!covered(face, face.face.from.u.in_mm() + way, m.slope.top - 20))
        m.broken("check.ridge_end_open", at, {}, "common practice, no source");
    }
  }
}

void measure_pipes(Measures& m) {
  if (!m.options.has(Part::pipe)) return;
  for (const PlacedFace& face : m.slope.faces) {
    if (face.face.kind != job::FaceKind::round) continue;
    const Measures::At at{face.junction, face.face.name, -2};
    const double u = face.face.from.u.in_mm();
    const double s = face.face.from.s.in_mm();
    double around = -1e300;
    double sleeve = 0;
    for (const PlacedLead& lead : m.slope.leads) {
      if (lead.junction != face.junction) continue;
      if (lead.kind == "pipe-sleeve") {
        for (const PlacedPanel& panel : lead.panels) {
          for (const Vec3& p : panel.ring) {
            // Upright above the roof.
            sleeve = std::max(sleeve, (p.y - s) * sin_deg(m.slope.pitch) + p.z * cos_deg(m.slope.pitch));
          }
        }
        continue;
      }
      if (const auto base = lead.extent(Lies::on_roof)) {
        around = std::max(around, std::min({u - base->u0, base->u1 - u, s - base->s0, base->s1 - s}));
      }
    }
    if (around <= 0) {
      m.broken("check.pipe_open", at, {}, "common practice, no source");
    }
    if (sleeve <= 0) {
      m.broken("check.pipe_open", at, {}, "common practice, no source");
      continue;
    }
  }
}

}  // namespace lapwright::check
