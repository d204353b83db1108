// Sound plans pass; then each is broken in one place, and the checker has to find it there.
//
// Removing any one piece and piercing any one are found always. Of the other ways of breaking a plan the rate
// is printed: a lap of nothing at the very top of a wall, say, lies under what ends the slope.
#include "planned.h"
#include "planning.h"
#include "random_job.h"

#include <lapwright/check/examine.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace lapwright {
namespace {

#ifdef __SANITIZE_ADDRESS__
constexpr std::int64_t kAtRandom = 20;  // the plain build looks at the rest
constexpr std::size_t kSoundAtLeast = 40;
constexpr std::int64_t kTriedAtLeast = 20;
#else
constexpr std::int64_t kAtRandom = 300;
constexpr std::size_t kSoundAtLeast = 200;
constexpr std::int64_t kTriedAtLeast = 100;
#endif

using check::Lies;
using check::PlacedLead;
using check::PlacedRoof;

struct Job {
  std::string name;
  std::string bytes;
  std::optional<engine::Planned> planned;
  PlacedRoof roof;
  check::Examined whole;
};

check::Examined look(const Job& job, const PlacedRoof& roof, const check::Options& options = {}) {
  return check::examine(roof, job.planned->survey, job.planned->pack, options);
}

bool is_wrong(const job::Finding& f) {
  return f.level == job::Level::wrong;
}

std::string first_wrong(const Job& job) {
  for (const job::Finding& f : job.whole.findings) {
    if (is_wrong(f)) {
      return f.where + ": " +
             job.planned->catalogue.say("finding." + f.rule, f.params, job.planned->survey.shown_in);
    }
  }
  return {};
}

// Found at the right place: a finding of this level or worse that was not there before, at the junction that
// was broken.
bool found_at(const check::Examined& broken, const check::Examined& whole, const std::string& junction,
              job::Level least = job::Level::wrong) {
  return std::any_of(broken.findings.begin(), broken.findings.end(), [&](const job::Finding& f) {
    if (f.level < least || f.where.find(junction) == std::string::npos) return false;
    return std::none_of(whole.findings.begin(), whole.findings.end(), [&](const job::Finding& w) {
      return w.level >= least && w.rule == f.rule && w.where == f.where;
    });
  });
}

// Kept jobs of every detail, and side walls at random; those that the planner itself says are wrong are left
// out.
std::vector<Job> sound_jobs(std::int64_t at_random) {
  std::vector<Job> out;
  const auto take = [&](const std::string& name, const std::string& bytes) {
    auto planned = engine::plan_job(bytes);
    if (!planned || engine::has_wrong(planned->plan)) return;
    // Perps that nearly meet are the planner's own doubt, and leak as it fears.
    if (sample::finding(planned->plan, "bond.sidelap_short") != nullptr) return;
    Job job;
    job.name = name;
    job.bytes = bytes;
    job.planned.emplace(std::move(*planned));
    out.push_back(std::move(job));
  };
  for (const std::string& file : sample::job_files({"tests/jobs/good", "tests/jobs/cases"}))
    take(file, sample::file_bytes(file));
  Generator random(20261125);
  for (std::int64_t i = 0; i < at_random; ++i)
    take("random " + std::to_string(i), sample::random_job(random));
  for (std::int64_t i = 0; i < at_random / 10; ++i)
    take("random house " + std::to_string(i), sample::random_house(random));
  for (Job& job : out) {
    job.roof = check::place(job.planned->survey, job.planned->plan);
    job.whole = check::examine(job.roof, job.planned->survey, job.planned->pack);
  }
  return out;
}

const std::vector<Job>& jobs() {
  static const std::vector<Job> kept = sound_jobs(kAtRandom);
  return kept;
}

TEST(Breaking, sound_plans_pass) {
  std::size_t wrong = 0;
  for (const Job& job : jobs()) {
    const std::string first = first_wrong(job);
    if (first.empty()) continue;
    ++wrong;
    if (wrong <= 20) std::printf("%s: %s\n", job.name.c_str(), first.c_str());
  }
  std::printf("sound plans: %zu, of them called wrong: %zu\n", jobs().size(), wrong);
  EXPECT_GE(jobs().size(), kSoundAtLeast);
  EXPECT_EQ(wrong, 0U);
}

struct Rate {
  std::int64_t tried = 0;
  std::int64_t found = 0;
};

// Breaks one lead of each job, picked at random, by `change`; false: it cannot be broken so.
template <class Change>
std::map<std::string, Rate> break_leads(std::int64_t a_job, const Change& change, const char* what,
                                        job::Level least = job::Level::wrong) {
  std::map<std::string, Rate> rates;
  Generator random(7);
  std::size_t told = 0;
  for (const Job& job : jobs()) {
    const check::Examined& whole = job.whole;
    if (!first_wrong(job).empty()) continue;
    for (std::int64_t n = 0; n < a_job; ++n) {
      PlacedRoof roof = job.roof;
      std::vector<std::pair<std::size_t, std::size_t>> all;
      for (std::size_t s = 0; s < roof.slopes.size(); ++s) {
        for (std::size_t l = 0; l < roof.slopes[s].leads.size(); ++l) all.emplace_back(s, l);
      }
      if (all.empty()) break;
      const auto [s, l] =
          all[static_cast<std::size_t>(random.between(0, static_cast<std::int64_t>(all.size()) - 1))];
      const PlacedLead lead = roof.slopes[s].leads[l];
      if (!change(roof.slopes[s], l, random)) continue;
      Rate& rate = rates[lead.kind];
      ++rate.tried;
      if (found_at(look(job, roof), whole, lead.junction, least)) {
        ++rate.found;
      } else if (told++ < 10) {
        std::printf("  %s not found: %s, %s %s of %s %s, course %d\n", what, job.name.c_str(),
                    lead.mark.c_str(), lead.kind.c_str(), lead.junction.c_str(), lead.face.c_str(),
                    static_cast<int>(lead.course));
        if (const auto e = lead.extent(Lies::on_face))
          std::printf("    from %.0f to %.0f up the slope, of %.0f\n", e->s0, e->s1, roof.slopes[s].top);
      }
    }
  }
  for (const auto& [kind, rate] : rates) {
    std::printf("%s %s: %d of %d\n", what, kind.c_str(), static_cast<int>(rate.found),
                static_cast<int>(rate.tried));
  }
  return rates;
}

void expect_all(const std::map<std::string, Rate>& rates) {
  for (const auto& [kind, rate] : rates) EXPECT_EQ(rate.found, rate.tried) << kind;
}

TEST(Breaking, a_piece_removed_is_found) {
  expect_all(break_leads(
      3,
      [](check::PlacedSlope& slope, std::size_t l, Generator&) {
        slope.leads.erase(slope.leads.begin() + static_cast<std::ptrdiff_t>(l));
        return true;
      },
      "removed"));
}

TEST(Breaking, a_piece_pierced_is_found) {
  expect_all(break_leads(
      2,
      [](check::PlacedSlope& slope, std::size_t l, Generator& random) {
        const auto flat = slope.leads[l].extent(Lies::on_roof);
        const auto on = flat ? flat : slope.leads[l].extent(Lies::on_face);
        if (!on) return false;
        slope.leads[l].pierced.push_back(
            {on->u0 + (on->u1 - on->u0) * random.unit(), on->s0 + (on->s1 - on->s0) * random.unit()});
        return true;
      },
      "pierced"));
}

void move(PlacedLead& lead, geom::Vec3 by) {
  for (check::PlacedPanel& panel : lead.panels) {
    for (geom::Vec3& p : panel.ring) p = p + by;
  }
}

TEST(Breaking, slid_dropped_and_turned_round_pieces_are_mostly_found) {
  std::int64_t tried = 0;
  std::int64_t found = 0;
  const auto add = [&](const std::map<std::string, Rate>& rates) {
    for (const auto& [kind, rate] : rates) {
      tried += rate.tried;
      found += rate.found;
    }
  };
  // A soaker slid down: where its lap is longer than that, its tail is seen and no more.
  add(break_leads(
      1,
      [](check::PlacedSlope& slope, std::size_t l, Generator&) {
        if (slope.leads[l].kind != "soaker") return false;
        move(slope.leads[l], {0, -80, 0});
        return true;
      },
      "slid", job::Level::doubt));
  // An upstand dropped below the units.
  add(break_leads(
      1,
      [](check::PlacedSlope& slope, std::size_t l, Generator&) {
        if (slope.leads[l].kind != "soaker") return false;
        for (check::PlacedPanel& panel : slope.leads[l].panels) {
          if (panel.lies != Lies::on_face) continue;
          for (geom::Vec3& p : panel.ring) p.z = std::min(p.z, slope.face - 1);
        }
        return true;
      },
      "dropped"));
  // A flashing laid under its lower neighbour.
  add(break_leads(
      2,
      [](check::PlacedSlope& slope, std::size_t l, Generator&) {
        PlacedLead& lead = slope.leads[l];
        if (lead.kind != "step-flashing" && lead.kind != "cover-flashing") return false;
        for (PlacedLead& other : slope.leads) {
          const auto a = lead.extent(Lies::on_face);
          const auto b = other.extent(Lies::on_face);
          if (&other == &lead || other.kind != lead.kind || other.face != lead.face ||
              other.junction != lead.junction || !a || !b || a->s0 <= b->s0 || a->s0 > b->s1)
            continue;
          std::swap(lead.order, other.order);
          return true;
        }
        return false;
      },
      "turned round"));
  // A flashing's lap over its neighbour below shortened to nothing: moved up the wall by a pieces' lap and
  // more.
  add(break_leads(
      2,
      [](check::PlacedSlope& slope, std::size_t l, Generator&) {
        PlacedLead& lead = slope.leads[l];
        if (lead.kind != "step-flashing" && lead.kind != "cover-flashing") return false;
        const auto a = lead.extent(Lies::on_face);
        double laps = 0;
        for (const PlacedLead& other : slope.leads) {
          const auto b = other.extent(Lies::on_face);
          if (&other == &lead || other.kind != lead.kind || other.face != lead.face ||
              other.junction != lead.junction || !a || !b || a->s0 <= b->s0 || a->s0 >= b->s1)
            continue;
          laps = std::max(laps, b->s1 - a->s0);
        }
        if (laps <= 0) return false;
        move(lead, {0, laps, 0});
        return true;
      },
      "lap of nothing"));
  std::printf("found %d of %d\n", static_cast<int>(found), static_cast<int>(tried));
  EXPECT_GT(tried, kTriedAtLeast);
  EXPECT_GT(static_cast<double>(found), 0.95 * static_cast<double>(tried));
}

// Soakers swapped for one strip of lead laid over the units: found by the trace, not by the planner's own
// word.
TEST(Breaking, a_wrong_detail_is_found_by_its_water) {
  std::int64_t tried = 0;
  std::int64_t found = 0;
  for (const Job& job : jobs()) {
    std::string bytes = job.bytes;
    const auto kind = bytes.find(R"("kind": "side")");
    if (kind == std::string::npos || bytes.find(R"("detail")") != std::string::npos ||
        bytes.find("-tile") != bytes.find("plain-tile") + 5)
      continue;
    if (tried == 60) break;
    bytes.insert(kind, R"("detail": "cover-flashing", )");
    const auto planned = engine::plan_job(bytes);
    if (!planned || sample::finding(planned->plan, "detail.cover_on_double_lap") == nullptr) continue;
    const auto examined =
        check::examine(check::place(planned->survey, planned->plan), planned->survey, planned->pack);
    ++tried;
    const bool sideways =
        std::any_of(examined.findings.begin(), examined.findings.end(),
                    [](const job::Finding& f) { return is_wrong(f) && f.rule.starts_with("check.leaks_"); });
    found += sideways ? 1 : 0;
    if (!sideways) std::printf("  wrong detail not found: %s\n", job.name.c_str());
  }
  std::printf("wrong detail: %d of %d\n", static_cast<int>(found), static_cast<int>(tried));
  EXPECT_GE(tried, kTriedAtLeast * 2 / 5);
  EXPECT_EQ(found, tried);
}

}  // namespace
}  // namespace lapwright
