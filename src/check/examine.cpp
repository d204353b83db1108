#include <lapwright/check/examine.h>

#include "drawing.h"
#include "measure.h"

#include <lapwright/base/trig.h>
#include <lapwright/check/site.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace lapwright::check {

namespace {

using job::Level;

constexpr double kMostDrift = 80;   // degrees: beyond, nothing is asked
constexpr double kMostClimb = 300;  // mm
constexpr double kHardWind =
    45;  // degrees: where joints are locked no more is asked of climb and drift together
// Degrees: enough to cross a perp that is laid tight.
constexpr double kHardlyAny = 0.05;
// What a junction may stand less than the covering: its soakers' set-back and this.
constexpr double kClimbSlack = 2;    // mm
constexpr double kDriftSlack = 1.5;  // degrees

// The wind that holds up a head of water: h = rho v^2 / (2 rho_w g).
double wind_of(double head_mm) {
  constexpr double kWaterOverAir = 1000 / 1.25;
  constexpr double kGravity = 9.81;
  return square_root(2 * kWaterOverAir * kGravity * std::max(head_mm, 0.0) / 1000);
}

std::int64_t course_at(const PlacedSlope& slope, double s) {
  std::int64_t course = -1;
  for (const PlacedUnit& unit : slope.units) {
    if (unit.tail <= s + 0.01 && unit.course > course) course = unit.course;
  }
  return course;
}

struct Covering {
  double drift = 0;
  double climb = 0;
};

Covering covering_of(const Tracer& plain) {
  return {plain.drift_stood(kMostDrift), plain.climb_stood(kHardlyAny, kMostClimb)};
}

class SlopeExaminer {
 public:
  SlopeExaminer(const PlacedSlope& slope, const practice::Pack& pack, const Options& options, Examined& out)
      : slope_(slope),
        pack_(pack),
        options_(options),
        out_(out),
        plain_(plain_field(slope)),
        covering_(covering_of(plain_)) {}

  void look_at(const Site& site) {
    const Tracer tracer(site.traced);
    job::Frontier f;
    f.slope = slope_.slope->name;
    f.junction = site.junction;
    f.run = site.run;
    f.courses = site.courses;
    f.covering_drift = covering_.drift;
    f.covering_climb = covering_.climb;
    const double set_back = pack_.number("soaker.set_back") + kClimbSlack;
    const Tracer* held_against = &plain_;
    std::optional<Tracer> sealed;
    if (site.sealed_matters) {
      sealed.emplace(site.sealed);
      held_against = &*sealed;
      f.covering_drift = std::min(f.covering_drift, sealed->drift_stood(kMostDrift));
      f.covering_climb = std::min(f.covering_climb, sealed->climb_stood(kHardlyAny, kMostClimb));
    }
    // A single-lap covering's joints are locked; it is held against a head of water as well.
    const double least_climb = pack_.number("check.rise_least") / sin_deg(slope_.own_pitch);
    const double drift_limit = f.covering_drift - kDriftSlack;
    const double climb_limit = std::max(f.covering_climb - set_back, 0.0);
    f.drift = tracer.drift_stood(kMostDrift);
    f.climb = tracer.climb_stood(0, kMostClimb);
    f.rise = std::max(f.climb, 0.0) * sin_deg(slope_.own_pitch);
    f.wind = wind_of(f.rise);
    bool points_hold = true;
    for (const double share : {0.25, 0.5, 0.75}) {
      const double drift = share * std::min(f.covering_drift, kHardWind);
      const double covering = std::min(held_against->climb_stood(drift, kMostClimb), kMostClimb);
      const double limit = std::max(covering - set_back, 0.0);
      job::Frontier::Point p{drift, 0, covering};
      if (drift <= f.drift) {
        const bool stands = tracer.stands({std::max(drift - kDriftSlack, 0.0), limit});
        p.climb = stands ? covering : tracer.climb_stood(drift, kMostClimb);
        points_hold = points_hold && stands;
      } else {
        p.climb = -1;
      }
      f.points.push_back(p);
    }
    const bool dry = f.drift >= 0;
    const bool sideways = f.drift >= drift_limit;
    const bool driven = f.climb >= climb_limit;
    const bool single = slope_.double_lap || f.climb >= std::min(least_climb, f.covering_climb);
    f.holds = dry && sideways && driven && points_hold && single;
    if (options_.has(Part::trace))
      say(site, tracer, f, dry, sideways, driven && single, points_hold, climb_limit);
    if (options_.draw) {
      const Weather weather = worst(tracer, f, dry, sideways);
      const auto leaks = tracer.leaks(weather);
      out_.proof.traces.push_back(
          drawing_of(slope_, site, tracer, weather, leaks.empty() ? nullptr : &leaks.front()));
    }
    out_.proof.frontiers.push_back(std::move(f));
  }

 private:
  // The mildest weather that it gives in.
  static Weather worst(const Tracer&, const job::Frontier& f, bool dry, bool sideways) {
    if (!dry) return {};
    if (!sideways) return {f.drift + 0.05, 0};
    if (f.climb < kMostClimb - 1) return {0, f.climb + 0.2};
    return {std::min(f.drift + 0.05, kMostDrift), 0};
  }

  // Under a soffit that comes down to the roof the last of a wall is boxed out, and only lightly rained on.
  bool runs_out(const Site& site) const {
    return std::any_of(slope_.leads.begin(), slope_.leads.end(), [&](const PlacedLead& l) {
      return l.junction == site.junction && l.kind == "cheek-flashing";
    });
  }

  std::string where(const Site& site, std::int64_t course) const {
    return slope_.slope->name + " / " + site.junction + " / course " + std::to_string(course + 1);
  }

  void say(const Site& site, const Tracer& tracer, const job::Frontier& f, bool dry, bool sideways,
           bool driven, bool points_hold, double climb_limit) {
    constexpr double kFarLess = 0.5;  // no shelter makes good for that
    const Level sideways_level =
        runs_out(site) && f.drift > kFarLess * f.covering_drift ? Level::doubt : Level::wrong;
    // Nobody says what stands behind a wall on a line: there, what only hard wind drives through is a doubt.
    const bool on_line = std::any_of(slope_.faces.begin(), slope_.faces.end(), [&](const PlacedFace& face) {
      return face.junction == site.junction && face.kind == job::JunctionKind::wall;
    });
    const auto add = [&](std::string rule, const Leak& leak, std::optional<double> value,
                         std::optional<double> limit, Level level = Level::wrong) {
      const std::int64_t course = course_at(slope_, leak.s);
      out_.findings.push_back({level,
                               std::move(rule),
                               {{"u", leak.u, "mm"},
                                {"s", leak.s, "mm"},
                                {"course", static_cast<double>(course + 1), ""},
                                {"drift", f.drift, "deg"},
                                {"covering_drift", f.covering_drift, "deg"},
                                {"climb", f.climb, "mm"},
                                {"covering_climb", f.covering_climb, "mm"},
                                {"limit", climb_limit, "mm"},
                                {"rise", f.rise, "mm"},
                                {"run", f.run, "mm"},
                                {"courses", static_cast<double>(f.courses), ""}},
                               "",
                               value,
                               limit,
                               "water trace",
                               where(site, course)});
    };
    if (!dry) {
      // One finding for every course that lets through, at its lowest place.
      std::int64_t said = -3;
      std::int64_t most = 6;
      for (const Leak& leak : tracer.leaks({})) {
        const std::int64_t course = course_at(slope_, leak.s);
        if (course == said) continue;
        if (most-- == 0) break;
        said = course;
        add("check.leaks_dry", leak, std::nullopt, std::nullopt);
      }
      return;
    }
    if (!sideways) {
      const auto leaks = tracer.leaks({std::min(f.drift + 0.05, kMostDrift), 0});
      if (!leaks.empty())
        add("check.leaks_sideways", leaks.front(), f.drift, f.covering_drift, sideways_level);
      return;
    }
    if (!driven) {
      const auto leaks = tracer.leaks({0, f.climb + 0.2});
      if (!leaks.empty()) {
        add("check.leaks_driven", leaks.front(), f.climb, climb_limit, on_line ? Level::doubt : Level::wrong);
      }
      return;
    }
    if (points_hold) return;
    for (const job::Frontier::Point& p : f.points) {
      if (p.climb >= p.covering) continue;
      const auto leaks = tracer.leaks({p.drift, std::max(p.climb, 0.0) + 0.2});
      if (leaks.empty()) continue;
      add("check.leaks_driven_aslant", leaks.front(), p.climb, p.covering, Level::doubt);
      return;
    }
  }

  const PlacedSlope& slope_;
  const practice::Pack& pack_;
  const Options& options_;
  Examined& out_;
  Tracer plain_;
  Covering covering_;
};

bool has_lead(const PlacedSlope& slope, const std::string& junction) {
  return std::any_of(slope.leads.begin(), slope.leads.end(),
                     [&](const PlacedLead& l) { return l.junction == junction; });
}

}  // namespace

Examined examine(const PlacedRoof& roof, const job::Survey& survey, const practice::Pack& pack,
                 const Options& options) {
  Examined out;
  for (const PlacedSlope& placed : roof.slopes) {
    if (placed.units.empty()) continue;  // nothing can be laid; the findings of the set-out say why
    const PlacedSlope& slope = placed;
    Measures m(slope, survey, pack, options, out);
    measure_covering(m);
    measure_soakers(m);
    measure_flashings(m);
    measure_nails(m);
    measure_pipes(m);
    measure_stacks(m);
    measure_joins(m);
    trace_faces(m);
    const std::vector<Site> sites = sites_of(slope);
    if (sites.empty()) continue;
    SlopeExaminer examiner(slope, pack, options, out);
    for (const Site& site : sites) {
      if (!options.junction.empty() && site.junction != options.junction) continue;
      const bool expected = std::any_of(slope.faces.begin(), slope.faces.end(), [&](const PlacedFace& f) {
        return f.junction == site.junction && f.bare_is_wrong;
      });
      if (expected || has_lead(slope, site.junction)) examiner.look_at(site);
    }
  }
  return out;
}

}  // namespace lapwright::check
