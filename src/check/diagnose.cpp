// Who lets the water in: each thing that was found, judged by itself on an otherwise sound roof, and held
// against the weather in which somebody saw a leak.
#include <lapwright/check/as_found.h>

#include <lapwright/check/examine.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>

namespace lapwright::check {

namespace {

using job::Finding;
using job::Gives;
using job::Suspect;

const PlacedSlope* slope_of(const PlacedRoof& roof, std::string_view name) {
  for (const PlacedSlope& slope : roof.slopes) {
    if (slope.slope->name == name) return &slope;
  }
  return nullptr;
}

bool is_at(const Finding& finding, const std::string& slope, const std::string& junction) {
  const std::string place = slope + " / " + junction;
  return finding.where == place || finding.where.starts_with(place + " / ");
}

std::vector<const Finding*> new_at(const Examined& now, const Examined& before, const std::string& slope,
                                   const std::string& junction) {
  std::vector<const Finding*> out;
  for (const Finding& f : now.findings) {
    if (f.level == job::Level::note || !is_at(f, slope, junction)) continue;
    const bool known = std::any_of(before.findings.begin(), before.findings.end(), [&](const Finding& b) {
      return b.rule == f.rule && b.where == f.where && b.level >= f.level;
    });
    if (!known) out.push_back(&f);
  }
  return out;
}

double number_of(const Finding& finding, std::string_view name, double otherwise) {
  for (const job::Param& p : finding.params) {
    if (p.name == name && std::holds_alternative<double>(p.value)) return std::get<double>(p.value);
  }
  return otherwise;
}

const PlacedFace* face_of(const PlacedSlope& slope, const Suspect& suspect) {
  const PlacedFace* first = nullptr;
  for (const PlacedFace& face : slope.faces) {
    if (face.junction != suspect.junction) continue;
    if (face.face.name == suspect.face) return &face;
    if (first == nullptr) first = &face;
  }
  return first;
}

// The bearing of the wind that does it. Facing the roof from the ground, one's right hand is a quarter turn
// back from the way that the roof looks.
std::optional<double> wind_for(const PlacedSlope& slope, const Suspect& suspect) {
  if (!slope.slope->faces || suspect.gives == Gives::any_rain || suspect.gives == Gives::little)
    return std::nullopt;
  const double looks = slope.slope->faces->in_degrees();
  const PlacedFace* face = face_of(slope, suspect);
  double from = looks;
  const bool side =
      face != nullptr && (face->face.kind == job::FaceKind::side || face->face.kind == job::FaceKind::skew);
  if (side && suspect.gives != Gives::driven) {
    // Water goes sideways towards a wall, and rain wets its face, when the wind blows at it.
    from = face->face.hand == job::Hand::left ? looks - 90 : looks + 90;
  } else if (face != nullptr && face->face.kind == job::FaceKind::back &&
             suspect.gives == Gives::rain_on_wall) {
    from = looks + 180;
  }
  return std::fmod(from + 720, 360);
}

void take_weather(Suspect& suspect, const Examined& examined, const std::vector<const Finding*>& findings) {
  for (const job::Frontier& f : examined.proof.frontiers) {
    if (f.slope != suspect.slope || f.junction != suspect.junction) continue;
    suspect.drift = f.drift;
    suspect.climb = f.climb;
    suspect.rise = f.rise;
    suspect.wind = f.wind;
    suspect.covering_drift = f.covering_drift;
    suspect.covering_climb = f.covering_climb;
  }
  std::set<std::string> rules;
  for (const Finding* f : findings) rules.insert(f->rule);
  suspect.rules.assign(rules.begin(), rules.end());
  struct Sign {
    std::string_view rule;
    Gives gives;
  };
  static constexpr Sign kSigns[] = {{"check.leaks_dry", Gives::any_rain},
                                    {"check.valley_open", Gives::any_rain},
                                    {"check.mitre_open", Gives::any_rain},
                                    {"check.corner_open", Gives::any_rain},
                                    {"check.ridge_end_open", Gives::any_rain},
                                    {"check.pipe_open", Gives::any_rain},
                                    {"check.behind_lead", Gives::rain_on_wall},
                                    {"check.wall_open", Gives::rain_on_wall},
                                    {"check.lap_reversed", Gives::rain_on_wall},
                                    {"check.flashing_ends", Gives::rain_on_wall},
                                    {"check.leaks_sideways", Gives::sideways},
                                    {"check.leaks_driven", Gives::driven},
                                    {"check.leaks_driven_aslant", Gives::driven},
                                    {"check.pierced", Gives::driven},
                                    {"check.nail_through_lead", Gives::driven},
                                    {"check.valley_lap", Gives::driven},
                                    {"check.lap_down", Gives::driven}};
  for (const Sign& sign : kSigns) {
    if (!rules.contains(std::string(sign.rule))) continue;
    suspect.gives = sign.gives;
    break;
  }
  for (const Finding* f : findings) {
    if (number_of(*f, "s", -1e9) < -1e8) continue;
    suspect.u = number_of(*f, "u", suspect.u);
    suspect.s = number_of(*f, "s", suspect.s);
    break;
  }
}

bool overlap(const PlacedLead::Extent& e, const PlacedUnit& unit) {
  constexpr double kTouch = 1;  // mm
  return unit.u1 > e.u0 + kTouch && unit.u0 < e.u1 - kTouch && unit.head > e.s0 + kTouch &&
         unit.tail < e.s1 - kTouch;
}

// Courses whose units lie over this lead: they come off before it can be laid.
void strip_over(const PlacedSlope& slope, const PlacedLead& lead, Suspect& suspect) {
  const auto e = lead.extent(Lies::on_roof);
  if (!e) return;
  for (const PlacedUnit& unit : slope.units) {
    if (order_of_course(unit.course) < lead.order || !overlap(*e, unit) || unit.course < 0) continue;
    const std::int64_t course = unit.course + 1;
    if (suspect.strip_from == 0 || course < suspect.strip_from) suspect.strip_from = course;
    suspect.strip_to = std::max(suspect.strip_to, course);
  }
}

void fit(const PlacedSlope& slope, const PlacedLead& lead, Suspect& suspect) {
  strip_over(slope, lead, suspect);
  for (Suspect::Fit& known : suspect.fit) {
    if (known.mark != lead.mark) continue;
    ++known.count;
    return;
  }
  suspect.fit.push_back({lead.mark, lead.kind, 1});
}

// The piece of the right roof that goes where this one is or was.
void fit_like(const PlacedSlope* right, const PlacedLead& was, Suspect& suspect) {
  if (right == nullptr) return;
  const PlacedLead* best = nullptr;
  double nearest = 1e300;
  for (const PlacedLead& lead : right->leads) {
    if (lead.junction != was.junction || lead.face != was.face || lead.kind != was.kind ||
        lead.course != was.course)
      continue;
    if (lead.panels.empty() || was.panels.empty()) continue;
    const double off = std::abs(lead.panels.front().ring.front().y - was.panels.front().ring.front().y);
    if (off < nearest) {
      nearest = off;
      best = &lead;
    }
  }
  if (best != nullptr) fit(*right, *best, suspect);
}

double apart(double a, double b) {
  const double d = std::fmod(std::abs(a - b), 360.0);
  return std::min(d, 360 - d);
}

// How well it explains a leak: 0 not at all.
double explains(const Suspect& suspect, const job::LeakSeen& leak) {
  if (leak.rain == job::Rain::none) return 0;
  if (!leak.slope.empty() && leak.slope != suspect.slope) return 0;
  if (!leak.junction.empty() && leak.junction != suspect.junction) return 0;
  const double here = leak.junction.empty() ? 0 : 1;
  if (suspect.gives == Gives::little) return 0;
  if (suspect.gives == Gives::any_rain) return 2 + here;
  // In still air nothing is driven.
  if (!leak.wind_from) return suspect.gives == Gives::rain_on_wall ? 1 + here : 0.5 + here;
  if (!suspect.wind_from) return 1 + here;
  constexpr double kInto = 60;  // degrees either side
  constexpr double kPast = 90;
  const double off = apart(leak.wind_from->in_degrees(), *suspect.wind_from);
  if (off <= kInto) return 3 + here;
  return off < kPast ? 1 + here : 0;
}

std::vector<std::string> causes_of(const job::LeakSeen& leak, const job::Survey& survey) {
  std::vector<std::string> out;
  if (leak.rain == job::Rain::none) return {"condensation"};
  bool stack = false;
  bool wall = false;
  for (const job::Slope& slope : survey.slopes) {
    if (!leak.slope.empty() && slope.name != leak.slope) continue;
    for (const job::Junction& junction : slope.junctions) {
      if (!leak.junction.empty() && junction.name != leak.junction) continue;
      stack = stack || junction.kind == job::JunctionKind::stack;
      wall = wall || (junction.kind != job::JunctionKind::stack && junction.kind != job::JunctionKind::pipe);
    }
  }
  if (stack) out.emplace_back("stack");
  if (wall) out.emplace_back("wall");
  if (leak.rain == job::Rain::heavy || !leak.wind_from) out.emplace_back("gutter");
  out.emplace_back("covering");
  return out;
}

class Diagnosis {
 public:
  Diagnosis(const PlacedRoof& made, const PlacedRoof& right, const job::Survey& survey,
            const practice::Pack& pack)
      : made_(made), right_(right), survey_(survey), pack_(pack), base_(examine(made, survey, pack)) {}

  job::Existing run() {
    PlacedRoof all = made_;
    for (const job::AsBuilt& found : survey_.as_built) (void)apply(found, all);
    out_.findings = examine(all, survey_, pack_).findings;
    suspect_the_whole();
    for (std::size_t i = 0; i < survey_.as_built.size(); ++i) {
      if (survey_.as_built[i].kind != job::FoundKind::detail) suspect_found(i);
    }
    hold_against_leaks();
    sort_out();
    return std::move(out_);
  }

 private:
  // Junctions that are wrong as they are made, before anything else that was found.
  void suspect_the_whole() {
    const Examined nothing;
    for (const PlacedSlope& slope : made_.slopes) {
      std::set<std::string> seen;
      for (const PlacedFace& face : slope.faces) {
        if (!seen.insert(face.junction).second) continue;
        const std::string& name = slope.slope->name;
        std::vector<const Finding*> findings = new_at(base_, nothing, name, face.junction);
        std::int64_t as_built = -1;
        for (std::size_t i = 0; i < survey_.as_built.size(); ++i) {
          const job::AsBuilt& found = survey_.as_built[i];
          if (found.kind == job::FoundKind::detail && found.slope == name && found.junction == face.junction)
            as_built = static_cast<std::int64_t>(i);
        }
        const bool wrong = std::any_of(findings.begin(), findings.end(),
                                       [](const Finding* f) { return f->level == job::Level::wrong; });
        if (!wrong && as_built < 0) continue;
        Suspect suspect;
        suspect.slope = name;
        suspect.junction = face.junction;
        suspect.as_built = as_built;
        if (as_built >= 0) {
          suspect.found = name_of(job::FoundKind::detail);
          suspect.piece = name_of(*survey_.as_built[static_cast<std::size_t>(as_built)].detail);
        }
        take_weather(suspect, base_, findings);
        if (const PlacedSlope* right = slope_of(right_, name)) {
          for (const PlacedLead& lead : right->leads) {
            if (lead.junction == face.junction) fit(*right, lead, suspect);
          }
        }
        suspect.wind_from = wind_for(slope, suspect);
        out_.suspects.push_back(std::move(suspect));
      }
    }
  }

  void suspect_found(std::size_t i) {
    const job::AsBuilt& found = survey_.as_built[i];
    const PlacedSlope* slope = slope_of(made_, found.slope);
    if (slope == nullptr) return;
    PlacedRoof alone;
    alone.slopes.push_back(*slope);
    const std::vector<PlacedLead> was = apply(found, alone);
    if (was.empty()) {
      out_.findings.push_back(
          {job::Level::doubt,
           "as_built.nothing_there",
           {{"piece", found.piece, ""},
            {"course", static_cast<double>(found.course.value_or(found.number.value_or(0))), ""}},
           "",
           std::nullopt,
           std::nullopt,
           "survey",
           found.slope + " / " + found.junction});
      return;
    }
    Options options;
    options.junction = found.junction;
    const Examined now = examine(alone, survey_, pack_, options);
    Suspect suspect;
    suspect.slope = found.slope;
    suspect.junction = found.junction;
    suspect.face = was.front().face;
    suspect.found = name_of(found.kind);
    suspect.piece = found.piece;
    suspect.as_built = static_cast<std::int64_t>(i);
    if (was.size() == 1 && was.front().course > -2) suspect.course = was.front().course + 1;
    if (const auto e = was.front().extent(Lies::on_roof)) {
      suspect.u = (e->u0 + e->u1) / 2;
      suspect.s = e->s0;
    } else if (const auto on_face = was.front().extent(Lies::on_face)) {
      suspect.u = on_face->u0;
      suspect.s = on_face->s0;
    }
    take_weather(suspect, now, new_at(now, base_, found.slope, found.junction));
    for (const PlacedLead& lead : was) fit_like(slope_of(right_, found.slope), lead, suspect);
    suspect.wind_from = wind_for(*slope, suspect);
    out_.suspects.push_back(std::move(suspect));
  }

  void hold_against_leaks() {
    for (std::size_t k = 0; k < survey_.leaks.size(); ++k) {
      bool any = false;
      for (Suspect& suspect : out_.suspects) {
        const double well = explains(suspect, survey_.leaks[k]);
        if (well <= 0) continue;
        any = true;
        suspect.score += well;
        suspect.leaks.push_back(static_cast<std::int64_t>(k));
      }
      if (any) continue;
      out_.unexplained.push_back(
          {static_cast<std::int64_t>(k), survey_.leaks[k].when, causes_of(survey_.leaks[k], survey_), ""});
    }
  }

  void sort_out() {
    const auto mild = [](const Suspect& s) {
      const double much = s.gives == Gives::sideways ? s.drift : s.gives == Gives::driven ? s.climb : 0;
      return std::tuple(static_cast<int>(s.gives), much);
    };
    std::stable_sort(out_.suspects.begin(), out_.suspects.end(), [&](const Suspect& a, const Suspect& b) {
      if (a.score != b.score) return a.score > b.score;
      if (mild(a) != mild(b)) return mild(a) < mild(b);
      return a.s < b.s;
    });
    std::vector<Suspect*> from_low;
    for (Suspect& s : out_.suspects) from_low.push_back(&s);
    std::stable_sort(from_low.begin(), from_low.end(),
                     [](const Suspect* a, const Suspect* b) { return a->s < b->s; });
    std::int64_t turn = 0;
    for (Suspect* s : from_low) s->hose = ++turn;
  }

  const PlacedRoof& made_;
  const PlacedRoof& right_;
  const job::Survey& survey_;
  const practice::Pack& pack_;
  Examined base_;
  job::Existing out_;
};

}  // namespace

job::Existing diagnose(const PlacedRoof& made, const PlacedRoof& right, const job::Survey& survey,
                       const practice::Pack& pack) {
  return Diagnosis(made, right, survey, pack).run();
}

}  // namespace lapwright::check
