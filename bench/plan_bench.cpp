// Plans a side wall of many courses: how long, how it grows, how large the plan is, how much memory it takes.
//
//   plan/40    a 40-course wall, the usual case
//   plan/1000  the longest wall that a job may hold
//   sheets     data/demo/hollin-barn.json with all its drawings and sheets
//   everything two walls, a stack, a ridge stack, a pipe and a valley, without sheets; its counter
//              `times_demo` is how often the demo job's one wall would be planned meanwhile
// Counters: courses per second; bytes of the plan; bytes of heap in use at the worst moment of one planning,
// and how often memory was asked for.
#include <lapwright/engine/engine.h>

#include <benchmark/benchmark.h>

#include <malloc.h>
#include <atomic>
#include <chrono>
#include <cstddef>
#include <cstdlib>
#include <fstream>
#include <new>
#include <sstream>
#include <string>

namespace {
std::atomic<std::size_t> g_in_use{0};
std::atomic<std::size_t> g_peak{0};
std::atomic<std::size_t> g_asked{0};

void* counted(std::size_t size) {
  void* p = std::malloc(size);
  if (p == nullptr) std::abort();
  const std::size_t now = g_in_use += malloc_usable_size(p);
  ++g_asked;
  std::size_t peak = g_peak.load();
  while (now > peak && !g_peak.compare_exchange_weak(peak, now)) {
  }
  return p;
}

void uncounted(void* p) noexcept {
  if (p == nullptr) return;
  g_in_use -= malloc_usable_size(p);
  std::free(p);
}
}  // namespace

void* operator new(std::size_t size) {
  return counted(size);
}
void* operator new[](std::size_t size) {
  return counted(size);
}
void operator delete(void* p) noexcept {
  uncounted(p);
}
void operator delete[](void* p) noexcept {
  uncounted(p);
}
void operator delete(void* p, std::size_t) noexcept {
  uncounted(p);
}
void operator delete[](void* p, std::size_t) noexcept {
  uncounted(p);
}

namespace {

std::string wall_of(long courses) {
  const std::string rafter = std::to_string(courses * 100);
  return R"({"format":"lapwright-job/1","title":"bench","slopes":[{"name":"rear","pitch":40,"rafter":)" +
         rafter +
         R"(,"width":5200,"covering":{"kind":"plain-tile","length":265,"width":165,"thickness":12,"camber":3,)"
         R"("max_gauge":100},"junctions":[{"name":"wall","kind":"side","hand":"left","from":0,"to":)" +
         rafter + R"(,"wall":{"kind":"brick","course":75,"first_joint":30}}]}]})";
}

void plan(benchmark::State& state) {
  const std::string job = wall_of(state.range(0));
  std::size_t bytes = 0;
  for (auto _ : state) {
    const lapwright::engine::Outcome outcome = lapwright::engine::plan({job});
    if (outcome.json.empty()) state.SkipWithError("no plan");
    bytes = outcome.json.size();
    benchmark::DoNotOptimize(outcome.json.data());
  }
  const std::size_t before = g_in_use;
  const std::size_t asked_before = g_asked;
  g_peak = before;
  {
    const lapwright::engine::Outcome outcome = lapwright::engine::plan({job});
    benchmark::DoNotOptimize(outcome.json.data());
  }
  state.counters["courses"] =
      benchmark::Counter(static_cast<double>(state.range(0)), benchmark::Counter::kIsIterationInvariantRate);
  state.counters["plan_bytes"] = static_cast<double>(bytes);
  state.counters["heap_peak"] = static_cast<double>(g_peak - before);
  state.counters["allocations"] = static_cast<double>(g_asked - asked_before);
}
std::string file_of(const std::string& path) {
  std::ifstream file(std::string(LAPWRIGHT_SOURCE "/") + path);
  std::stringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

double seconds_to_plan(const std::string& job, benchmark::State& state) {
  const auto start = std::chrono::steady_clock::now();
  const lapwright::engine::Outcome outcome = lapwright::engine::plan({job});
  const auto end = std::chrono::steady_clock::now();
  if (outcome.json.empty()) state.SkipWithError("no plan");
  return std::chrono::duration<double>(end - start).count();
}

void everything(benchmark::State& state) {
  const std::string all = file_of("tests/jobs/cases/all-together.json");
  const std::string demo = file_of("data/demo/hollin-barn.json");
  double for_all = 0;
  double for_demo = 0;
  for (auto _ : state) {
    const double seconds = seconds_to_plan(all, state);
    state.SetIterationTime(seconds);
    for_all += seconds;
    for_demo += seconds_to_plan(demo, state);
  }
  if (for_demo > 0) state.counters["times_demo"] = for_all / for_demo;
}
BENCHMARK(everything)->UseManualTime()->Unit(benchmark::kMillisecond);

void sheets(benchmark::State& state) {
  const std::string bytes_of_job = file_of("data/demo/hollin-barn.json");
  std::size_t bytes = 0;
  for (auto _ : state) {
    const lapwright::engine::Outcome outcome = lapwright::engine::plan({bytes_of_job, true});
    if (outcome.documents.empty()) state.SkipWithError("no documents");
    bytes = 0;
    for (const auto& document : outcome.documents) bytes += document.bytes.size();
    benchmark::DoNotOptimize(outcome.json.data());
  }
  state.counters["document_bytes"] = static_cast<double>(bytes);
}
BENCHMARK(sheets)->Unit(benchmark::kMillisecond);

BENCHMARK(plan)->Arg(10)->Arg(40)->Arg(100)->Arg(1000)->Unit(benchmark::kMillisecond);

}  // namespace
