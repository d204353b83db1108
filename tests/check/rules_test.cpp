// The checker itself broken: each rule sees one way of spoiling a sound roof, and with that rule switched off
// it is not seen. A rule that nobody needs, or that cannot fail, has no line here, and a test says so.
#include "planned.h"
#include "planning.h"

#include <lapwright/check/examine.h>
#include <lapwright/practice/catalogue.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace lapwright {
namespace {

using check::Lies;
using check::Part;
using check::PlacedLead;
using check::PlacedRoof;
using check::PlacedSlope;
using geom::Vec3;

struct Rule {
  const char* rule;
  Part part;
  const char* job;
  std::function<void(PlacedSlope&)> spoil;
};

void move(PlacedLead& lead, Vec3 by) {
  for (check::PlacedPanel& panel : lead.panels) {
    for (Vec3& p : panel.ring) p = p + by;
  }
}

// The nth piece of a kind, from the first.
PlacedLead* nth(PlacedSlope& slope, const char* kind, std::size_t n = 0, const char* face = "") {
  for (PlacedLead& lead : slope.leads) {
    if (lead.kind == kind && (face[0] == '\0' || lead.face == face) && n-- == 0) return &lead;
  }
  return nullptr;
}

std::function<void(PlacedSlope&)> moved(const char* kind, Vec3 by, std::size_t n = 0, const char* face = "") {
  return [=](PlacedSlope& s) {
    if (PlacedLead* lead = nth(s, kind, n, face)) move(*lead, by);
  };
}

std::function<void(PlacedSlope&)> taken(const char* kind) {
  return [=](PlacedSlope& s) {
    std::erase_if(s.leads, [&](const PlacedLead& lead) { return lead.kind == kind; });
  };
}

// Every point of the first piece of a kind that lies so, changed.
template <class Change>
std::function<void(PlacedSlope&)> bent(const char* kind, Lies lies, Change change) {
  return [=](PlacedSlope& s) {
    PlacedLead* lead = nth(s, kind);
    if (lead == nullptr) return;
    for (check::PlacedPanel& panel : lead->panels) {
      if (panel.lies != lies) continue;
      for (Vec3& p : panel.ring) change(p);
    }
  };
}

std::function<void(PlacedSlope&)> without(const char* kind, Lies lies) {
  return [=](PlacedSlope& s) {
    PlacedLead* lead = nth(s, kind);
    if (lead != nullptr)
      std::erase_if(lead->panels, [&](const check::PlacedPanel& p) { return p.lies == lies; });
  };
}

std::function<void(PlacedSlope&)> units_of(std::int64_t course,
                                           std::function<void(check::PlacedUnit&)> change) {
  return [=](PlacedSlope& s) {
    for (check::PlacedUnit& unit : s.units) {
      if (unit.course == course) change(unit);
    }
  };
}

constexpr const char* kBarn = "tests/jobs/good/barn.json";
constexpr const char* kValley = "tests/jobs/good/valley.json";

const std::vector<Rule>& rules() {
  static const std::vector<Rule> all{
      {"check.soaker_missing", Part::soaker_each_course, kBarn,
       [](PlacedSlope& s) { s.leads.erase(s.leads.begin() + 5); }},
      {"check.leaks_dry", Part::trace, kBarn, [](PlacedSlope& s) { s.leads.erase(s.leads.begin() + 5); }},
      {"check.leaks_driven", Part::trace, kBarn,
       bent("soaker", Lies::on_roof, [](Vec3& p) { p.y = std::min(p.y, 130.0); })},
      {"check.leaks_sideways", Part::trace, "tests/jobs/cases/a07-step-and-cover.json", nullptr},
      {"check.behind_lead", Part::face, kBarn, taken("step-flashing")},
      {"check.wall_open", Part::face, "tests/jobs/cases/lean-to.json",
       [](PlacedSlope& s) { s.leads.erase(s.leads.begin()); }},
      {"check.upstand_shows", Part::face, kBarn,
       bent("soaker", Lies::on_face, [](Vec3& p) { p.z = p.z > 60 ? p.z + 90 : p.z; })},
      {"check.leg", Part::leg, kBarn,
       bent("soaker", Lies::on_roof, [](Vec3& p) { p.x = std::min(p.x, 60.0); })},
      {"check.proud", Part::proud, kBarn,
       bent("soaker", Lies::on_face, [](Vec3& p) { p.z = std::min(p.z, 40.0); })},
      {"check.tail", Part::tail, kBarn, moved("soaker", {0, -10, 0})},
      {"check.soaker_lap", Part::soaker_lap, kBarn, moved("soaker", {0, -40, 0})},
      {"check.nail_through_lead", Part::nails, kBarn,
       units_of(4, [](check::PlacedUnit& u) { u.nails.push_back({u.u0 + 20, u.tail + 80}); })},
      {"check.nails_over_lead", Part::nails, kBarn, nullptr},
      {"check.pierced", Part::nails, kBarn,
       [](PlacedSlope& s) { s.leads.front().pierced.push_back({20, 100}); }},
      {"check.lap_along", Part::lap_along, kBarn, moved("step-flashing", {0, -60, 0})},
      {"check.lap_reversed", Part::lap_along, kBarn,
       [](PlacedSlope& s) { std::swap(nth(s, "step-flashing")->order, nth(s, "step-flashing", 1)->order); }},
      {"check.flashing_ends", Part::lap_along, kBarn,
       [](PlacedSlope& s) {
         std::size_t last = 0;
         for (std::size_t i = 0; i < s.leads.size(); ++i) {
           if (s.leads[i].kind == "step-flashing" && s.leads[i].junction == "house wall") last = i;
         }
         s.leads.erase(s.leads.begin() + static_cast<std::ptrdiff_t>(last));
       }},
      {"check.lap_down", Part::lap_down, "tests/jobs/cases/a04-flat-tile.json",
       moved("secret-gutter", {0, 250, 0}, 1)},
      {"check.turn_in", Part::turn_in, kBarn, without("step-flashing", Lies::in_masonry)},
      {"check.piece_length", Part::piece_length, kBarn,
       [](PlacedSlope& s) { nth(s, "step-flashing")->length = 1700; }},
      {"check.clearance", Part::clearance, kBarn, moved("step-flashing", {0, 0, -20})},
      {"check.chase_height", Part::clearance, "tests/jobs/cases/a08-render-on-slate.json",
       moved("cover-flashing", {0, 0, -40})},
      {"check.upstand", Part::upstand, kBarn, without("apron", Lies::on_face)},
      {"check.cover", Part::cover, kBarn,
       bent("apron", Lies::on_roof, [](Vec3& p) { p.y = std::max(p.y, 1420.0); })},
      {"check.over_upstand", Part::cover, kBarn, moved("step-flashing", {0, 0, 60})},
      {"check.headlap", Part::headlap, kBarn, units_of(3, [](check::PlacedUnit& u) { u.head -= 30; })},
      {"check.sidelap", Part::sidelap, kBarn,
       units_of(3,
                [](check::PlacedUnit& u) {
                  u.u0 += 60;
                  u.u1 += 60;
                })},
      {"check.pipe_open", Part::pipe, "tests/jobs/good/stack-and-pipe.json", taken("pipe-sleeve")},
      {"check.corner_open", Part::corner, "tests/jobs/cases/stack-welded.json", taken("corner")},
      {"check.ridge_end_open", Part::corner, "tests/jobs/cases/a18-ridge-stack.json", taken("saddle")},
      {"check.valley_open", Part::join, kValley, taken("valley-saddle")},
      {"check.valley_lap", Part::join, kValley, moved("valley", {76, 93, 0}, 1)},
      {"check.mitre_open", Part::join, "tests/jobs/cases/hip-mitred.json",
       [](PlacedSlope& s) { s.leads.erase(s.leads.begin() + 4); }},
  };
  return all;
}

bool has(const check::Examined& examined, std::string_view rule) {
  return std::any_of(examined.findings.begin(), examined.findings.end(),
                     [&](const job::Finding& f) { return f.rule == rule; });
}

TEST(Rules, each_sees_what_no_other_does) {
  std::map<std::string, engine::Planned> plans;
  for (const Rule& rule : rules()) {
    if (!plans.contains(rule.job)) {
      auto planned = engine::plan_job(sample::file_bytes(rule.job));
      ASSERT_TRUE(planned) << rule.job;
      plans.emplace(rule.job, std::move(*planned));
    }
    const engine::Planned& planned = plans.at(rule.job);
    const PlacedRoof sound = check::place(planned.survey, planned.plan);
    const auto look = [&](const PlacedRoof& roof, const check::Options& options) {
      return has(check::examine(roof, planned.survey, planned.pack, options), rule.rule);
    };
    PlacedRoof roof = sound;
    if (rule.spoil) {
      EXPECT_FALSE(look(sound, {})) << rule.rule << ": said of a sound roof";
      rule.spoil(roof.slopes[0]);
    }
    EXPECT_TRUE(look(roof, {})) << rule.rule << ": not found";
    check::Options blind;
    blind.without.push_back(rule.part);
    EXPECT_FALSE(look(roof, blind)) << rule.rule << ": found though its rule is off";
  }
}

// Of every sentence that the checker has, but what is a doubt of the trace's in between.
TEST(Rules, none_is_forgotten) {
  const auto catalogue = practice::Catalogue::built_in();
  ASSERT_TRUE(catalogue);
  std::set<std::string> known{"check.leaks_driven_aslant"};
  for (const Rule& rule : rules()) known.insert(rule.rule);
  for (const auto& key : catalogue->keys()) {
    constexpr std::string_view kFinding = "finding.";
    if (!key.starts_with("finding.check.")) continue;
    EXPECT_TRUE(known.contains(std::string(key.substr(kFinding.size())))) << key;
  }
}

}  // namespace
}  // namespace lapwright
