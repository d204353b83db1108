#include <lapwright/check/odds.h>

#include "measure.h"

#include <lapwright/base/generator.h>
#include <lapwright/base/tolerance.h>
#include <lapwright/base/trig.h>

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <utility>

namespace lapwright::check {

namespace {

using geom::Vec3;

enum Source : std::uint8_t { thickness, camber, length, rafter, joints, cutting };
constexpr std::size_t kSources = cutting + 1;
constexpr std::array<std::string_view, kSources> kNames{"thickness", "camber", "length",
                                                        "rafter",    "joints", "cutting"};
constexpr std::uint64_t kSeed = 20261125;
constexpr int kRoofs = 400;  // a chance is known to 2.5 points or better
constexpr int kAlone = 60;   // of each source by itself

using Spreads = std::array<double, kSources>;

// Between −1 and 1, most often near 0.
double drawn(Generator& random) {
  return random.unit() + random.unit() - 1;
}

Spreads spreads_of(const PlacedSlope& slope, const practice::Pack& pack) {
  const auto given = [&](const Measured<Length>& m, std::string_view rule) {
    return m.spread > Length{} ? m.spread.in_mm() : pack.number(rule);
  };
  const job::Covering& c = slope.slope->covering;
  Spreads out{};
  out[thickness] = given(c.thickness, "spread.thickness");
  out[camber] = given(c.camber, "spread.camber");
  out[length] = given(c.length, "spread.length");
  out[rafter] = given(slope.slope->rafter, "spread.tape");
  out[joints] = pack.number("spread.joint");
  for (const job::Junction& junction : slope.slope->junctions) {
    if (junction.wall.first_joint && junction.wall.first_joint->spread > Length{})
      out[joints] = std::max(out[joints], junction.wall.first_joint->spread.in_mm());
  }
  out[cutting] = tolerance::kHandCut.in_mm();
  return out;
}

struct Cut {
  double taller = 0;
  double longer = 0;
  double wider = 0;
};

void cut(PlacedLead& lead, const Cut& by) {
  double head = -1e300;
  double high = -1e300;
  double near = 1e300;  // of the wall, along the eaves
  double far = -1e300;
  for (const PlacedPanel& panel : lead.panels) {
    for (const Vec3& p : panel.ring) {
      head = std::max(head, p.y);
      if (panel.lies == Lies::on_face) high = std::max(high, p.z);
      if (panel.lies == Lies::on_roof) far = std::max(far, p.x);
      if (panel.lies == Lies::on_roof) near = std::min(near, p.x);
    }
  }
  double wall = near;
  for (const PlacedPanel& panel : lead.panels) {
    if (panel.lies == Lies::on_face) wall = panel.ring.front().x;
  }
  const bool to_right = wall - near < far - wall;
  constexpr double kEdge = 0.5;  // mm
  for (PlacedPanel& panel : lead.panels) {
    for (Vec3& p : panel.ring) {
      if (p.y > head - kEdge) p.y += by.longer;
      if (panel.lies == Lies::on_face && p.z > high - kEdge) p.z += by.taller;
      if (panel.lies != Lies::on_roof || lead.kind != "soaker") continue;
      if (to_right && p.x > far - kEdge) p.x += by.wider;
      if (!to_right && p.x < near + kEdge) p.x -= by.wider;
    }
  }
}

void disturb(PlacedSlope& slope, const Spreads& spread, Generator& random) {
  const double face = spread[thickness] * drawn(random) + spread[camber] * drawn(random);
  const double longer = spread[length] * drawn(random);
  const double stretch = 1 + spread[rafter] * drawn(random) / slope.top;
  const double joint = spread[joints] * drawn(random);
  const double hand = spread[cutting];
  const Cut by{hand * drawn(random), hand * drawn(random), hand * drawn(random)};
  const job::Covering& c = slope.slope->covering;
  // What was planned rests on the thickest that the survey allows.
  const double before = slope.face;
  slope.face = (c.thickness.value + c.camber.value).in_mm() + face;
  for (PlacedUnit& unit : slope.units) {
    const double moved = unit.tail * (stretch - 1);
    unit.tail += moved;
    unit.head += moved + longer;
    for (Strip& strip : unit.strips) {
      strip.lo0 += moved;
      strip.lo1 += moved;
      strip.hi0 += moved + longer;
      strip.hi1 += moved + longer;
    }
  }
  for (PlacedLead& lead : slope.leads) {
    cut(lead, by);
    const bool in_course = lead.course > -2;
    for (PlacedPanel& panel : lead.panels) {
      for (Vec3& p : panel.ring) {
        // Soakers go with their course; what is let into the wall was measured from the units' face.
        if (in_course) p.y += static_cast<double>(lead.course) * slope.gauge * (stretch - 1);
        if (!in_course && panel.lies != Lies::on_roof) p.z += slope.face - before + joint;
      }
    }
  }
}

job::Proof measured(const PlacedSlope& slope, const job::Survey& survey, const practice::Pack& pack,
                    const Options& options) {
  Examined out;
  Measures m(slope, survey, pack, options, out);
  measure_covering(m);
  measure_soakers(m);
  measure_flashings(m);
  trace_faces(m);
  return std::move(out.proof);
}

const job::Measure* like(const job::Proof& proof, const job::Measure& one) {
  for (const job::Measure& m : proof.measures) {
    if (m.rule == one.rule && m.junction == one.junction) return &m;
  }
  return nullptr;
}

double margin(const job::Measure& m) {
  return m.at_most ? m.limit - m.value : m.value - m.limit;
}

void sample(const PlacedSlope& slope, const job::Survey& survey, const practice::Pack& pack,
            std::vector<job::Odds>& out) {
  Options options;
  options.without = {Part::face, Part::sidelap};
  const job::Proof planned = measured(slope, survey, pack, options);
  const std::size_t n = planned.measures.size();
  const Spreads spread = spreads_of(slope, pack);
  Generator random(kSeed);
  std::vector<int> broken(n, 0);
  const auto roof = [&](const Spreads& with) {
    PlacedSlope other = slope;
    disturb(other, with, random);
    return measured(other, survey, pack, options);
  };
  for (int i = 0; i < kRoofs; ++i) {
    const job::Proof proof = roof(spread);
    for (std::size_t k = 0; k < n; ++k) {
      const job::Measure* m = like(proof, planned.measures[k]);
      if (m == nullptr || !m->holds) ++broken[k];
    }
  }
  std::vector<std::array<double, kSources>> moves(n);
  for (std::size_t source = 0; source < kSources; ++source) {
    Spreads alone{};
    alone[source] = spread[source];
    // Against a roof with no error at all: the thickest unit that was planned for is no error.
    const job::Proof exact = roof({});
    for (int i = 0; i < kAlone; ++i) {
      const job::Proof proof = roof(alone);
      for (std::size_t k = 0; k < n; ++k) {
        const job::Measure* m = like(proof, planned.measures[k]);
        const job::Measure* e = like(exact, planned.measures[k]);
        if (m == nullptr || e == nullptr) continue;
        const double off = margin(*m) - margin(*e);
        moves[k][source] += off * off / kAlone;
      }
    }
  }
  for (std::size_t k = 0; k < n; ++k) {
    const job::Measure& m = planned.measures[k];
    std::size_t most = 0;
    for (std::size_t source = 1; source < kSources; ++source) {
      if (moves[k][source] > moves[k][most]) most = source;
    }
    out.push_back({m.rule, m.slope, m.junction, m.where, m.value, m.limit, m.at_most,
                   static_cast<double>(broken[k]) / kRoofs, std::string(kNames[most]),
                   square_root(moves[k][most])});
  }
}

}  // namespace

std::vector<job::Odds> odds(const PlacedRoof& roof, const job::Survey& survey, const practice::Pack& pack) {
  std::vector<job::Odds> out;
  for (const PlacedSlope& slope : roof.slopes) {
    if (!slope.units.empty() && slope.top > 0) sample(slope, survey, pack, out);
  }
  return out;
}

}  // namespace lapwright::check
