#include "planned.h"
#include "planning.h"
#include <lapwright/check/site.h>
#include <lapwright/check/examine.h>
#include <chrono>
#include <gtest/gtest.h>
#include <cstdio>
#include <cstdlib>
namespace lapwright {
TEST(Look, at) {
  std::vector<std::string> files = sample::job_files({"tests/jobs/good", "tests/jobs/cases", "data/demo"});
  if (const char* one = std::getenv("LOOK")) files = {one};
  for (const auto& file : files) {
    const auto planned = engine::plan_job(sample::file_bytes(file));
    if (!planned) continue;
    const auto roof = check::place(planned->survey, planned->plan);
    const auto t0 = std::chrono::steady_clock::now();
    const auto ex = check::examine(roof, planned->survey, planned->pack);
    std::printf("%s %.1f ms\n", file.c_str(), std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - t0).count());
    for (const auto& f : ex.findings) std::printf("   FOUND %s | %s\n", f.where.c_str(), planned->catalogue.say("finding." + f.rule, f.params, planned->survey.shown_in).c_str());
    if (std::getenv("ONLY")) continue;
    for (const auto& slope : roof.slopes) {
      const check::Tracer plain(check::plain_field(slope));
      std::printf("%s %s: plain drift %.1f climb %.1f\n", file.c_str(), slope.slope->name.c_str(), plain.drift_stood(), plain.climb_stood(0));
      for (auto& site : check::sites_of(slope)) {
        const check::Tracer t(site.traced); if (t.drift_stood() > 15 && !(std::getenv("CLIMB") && t.climb_stood(0) < 40)) { std::printf("   %s ok %.1f %.1f\n", site.junction.c_str(), t.drift_stood(), t.climb_stood(0)); continue; }
        const check::Tracer s(site.sealed);
        if (std::getenv("SHEETS")) for (const auto& sh : site.traced.sheets) std::printf("   sheet order %ld owner %zu strips %zu [%.1f %.1f] lo %.1f hi %.1f\n", sh.order, sh.owner, sh.strips.size(), sh.strips.front().u0, sh.strips.back().u1, sh.strips.front().lo0, sh.strips.front().hi0);
        std::printf("%s %s sheets %zu leads %zu: drift %.1f climb %.1f | sealed %.1f %.1f\n", file.c_str(), site.junction.c_str(), t.traced().sheets.size(), site.leads.size(), t.drift_stood(), t.climb_stood(0),
          site.sealed_matters ? s.drift_stood():99, site.sealed_matters? s.climb_stood(0):999);
        if (std::getenv("WET")) for (const auto& w : t.wet({0,0})) if (w.sheet == 9) std::printf("wet %.2f %.2f: %.2f %.2f\n", w.u0, w.u1, w.s0, w.s1);
        if (std::getenv("WET")) for (std::size_t q = 0; q < site.traced.sheets.size(); ++q) for (const auto& st : site.traced.sheets[q].strips) if (st.u0 < 250 && st.lo0 < 300) std::printf("strip %zu order %ld u %.2f %.2f lo %.2f %.2f hi %.2f %.2f\n", q, site.traced.sheets[q].order, st.u0, st.u1, st.lo0, st.lo1, st.hi0, st.hi1);
        const auto leaks = t.leaks(std::getenv("CLIMB") ? check::Weather{0, t.climb_stood(0) + 1} : check::Weather{t.drift_stood() < 0 ? 0.0 : t.drift_stood() + 0.5, 0});
        for (std::size_t i = 0; i < leaks.size() && i < 4; ++i) std::printf("      leak %.1f %.1f through %d path %zu\n", leaks[i].u, leaks[i].s, static_cast<int>(leaks[i].through), leaks[i].path.size()), [&]{ for (const auto& sp : leaks[i].path) { if (sp.sheet >= site.traced.sheets.size()) continue; const auto o = site.traced.sheets[sp.sheet].owner; if (o == check::kNobody) continue; if (o < site.units.size()) std::printf("         (%.1f %.1f) unit %ld [%.1f %.1f]x[%.1f %.1f]\n", sp.u, sp.s, site.units[o]->course, site.units[o]->u0, site.units[o]->u1, site.units[o]->tail, site.units[o]->head); else { const auto* l = site.leads[o - site.units.size()]; std::printf("         (%.1f %.1f) %s %s %ld\n", sp.u, sp.s, l->mark.c_str(), l->kind.c_str(), l->course);} } }();
      }
    }
  }
}
}
namespace lapwright {
TEST(Look, paths) {
  const char* one = std::getenv("LOOK");
  if (one == nullptr) return;
  const auto planned = engine::plan_job(sample::file_bytes(one));
  const auto roof = check::place(planned->survey, planned->plan);
  check::Options o; o.draw = true;
  for (const auto& slope : roof.slopes) {
    for (auto& site : check::sites_of(slope)) {
      const check::Tracer t(site.traced);
      const auto leaks = t.leaks({std::atof(std::getenv("DRIFT")), std::atof(std::getenv("CLIMB"))});
      for (std::size_t i = 0; i < leaks.size() && i < 3; ++i) { std::printf("%s leak %.1f %.1f through %d\n", site.junction.c_str(), leaks[i].u, leaks[i].s, static_cast<int>(leaks[i].through));
        for (const auto& sp : leaks[i].path) { if (sp.sheet >= site.traced.sheets.size()) continue; const auto w = site.traced.sheets[sp.sheet].owner; if (w == check::kNobody) continue; if (w < site.units.size()) std::printf("         (%.1f %.1f) unit %ld [%.1f %.1f]x[%.1f %.1f]\n", sp.u, sp.s, site.units[w]->course, site.units[w]->u0, site.units[w]->u1, site.units[w]->tail, site.units[w]->head); else { const auto* l = site.leads[w - site.units.size()]; std::printf("         (%.1f %.1f) %s %s %ld\n", sp.u, sp.s, l->mark.c_str(), l->kind.c_str(), l->course);} } }
    }
  }
}
}
