// The checker: how long, and how it grows.
//
//   check/50, check/100, check/200   side walls of so many courses of plain tiles (50 are 5 m)
//   check_house                      eight stacks and 60 m of walls
#include <lapwright/check/examine.h>
#include <lapwright/check/site.h>

#include "planning.h"

#include <benchmark/benchmark.h>

#include <string>

namespace {

using namespace lapwright;

std::string wall(std::int64_t courses) {
  return R"({"format": "lapwright-job/1", "site": {"exposure": "moderate"}, "slopes": [{"pitch": 40, "rafter": )" +
         std::to_string(courses * 100) +
         R"(, "width": 4000, "covering": {"kind": "plain-tile", "length": 265, "width": 165, "thickness": 12},
  "junctions": [{"name": "wall", "kind": "side", "hand": "left", "wall": {"kind": "brick", "course": 75,
  "first_joint": 30}}]}]})";
}

std::string house() {
  std::string out = R"({"format": "lapwright-job/1", "site": {"exposure": "moderate"}, "slopes": [)";
  for (int i = 0; i < 6; ++i) {
    if (i > 0) out += ", ";
    out += R"({"name": "s)" + std::to_string(i) +
           R"(", "pitch": 40, "rafter": 5000, "width": 6000, "covering": {"kind": "plain-tile", "length": 265,
  "width": 165, "thickness": 12}, "junctions": [{"name": "left", "kind": "side", "hand": "left",
  "wall": {"first_joint": 30}}, {"name": "right", "kind": "side", "hand": "right", "wall": {"first_joint": 30}})";
    if (i < 4) {
      out += R"(, {"name": "a", "kind": "stack", "at": 2000, "front": 1500, "width": 665, "depth": 440},
  {"name": "b", "kind": "stack", "at": 4200, "front": 2600, "width": 665, "depth": 440})";
    }
    out += "]}";
  }
  return out + "]}";
}

void run(benchmark::State& state, const std::string& job) {
  const auto planned = engine::plan_job(job);
  if (!planned) {
    state.SkipWithError("the job does not plan");
    return;
  }
  for (auto _ : state) {
    const auto examined =
        check::examine(check::place(planned->survey, planned->plan), planned->survey, planned->pack);
    benchmark::DoNotOptimize(examined.findings.data());
  }
}

// One trace of the whole wall in one weather, everything laid out anew.
void trace(benchmark::State& state) {
  const auto planned = engine::plan_job(wall(state.range(0)));
  if (!planned) {
    state.SkipWithError("the job does not plan");
    return;
  }
  const check::PlacedRoof roof = check::place(planned->survey, planned->plan);
  for (auto _ : state) {
    for (const check::Site& site : check::sites_of(roof.slopes[0])) {
      const check::Tracer tracer(site.traced);
      benchmark::DoNotOptimize(tracer.stands({20, 20}));
    }
  }
}
BENCHMARK(trace)->Arg(50)->Arg(100)->Arg(200)->Unit(benchmark::kMillisecond);

void check_wall(benchmark::State& state) {
  run(state, wall(state.range(0)));
}
BENCHMARK(check_wall)->Name("check")->Arg(50)->Arg(100)->Arg(200)->Unit(benchmark::kMillisecond);

void check_house(benchmark::State& state) {
  run(state, house());
}
BENCHMARK(check_house)->Unit(benchmark::kMillisecond);

}  // namespace
