// The trigonometry of our own beside libm's: what "the same bytes everywhere" costs.
#include <benchmark/benchmark.h>
#include <lapwright/base/generator.h>
#include <lapwright/base/trig.h>

#include <cmath>
#include <vector>

namespace {

std::vector<double> angles(double low, double high) {
  lapwright::Generator generator(7);
  std::vector<double> out;
  for (int i = 0; i < 1024; ++i) out.push_back(low + (high - low) * generator.unit());
  return out;
}

template <class F>
void over(benchmark::State& state, double low, double high, F function) {
  const auto arguments = angles(low, high);
  for (auto _ : state) {
    double sum = 0;
    for (const double a : arguments) sum += function(a);
    benchmark::DoNotOptimize(sum);
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(arguments.size()));
}

void sin_ours(benchmark::State& state) {
  over(state, -360, 360, lapwright::sin_deg);
}
void sin_libm(benchmark::State& state) {
  over(state, -6.28, 6.28, [](double a) { return std::sin(a); });
}
void atan_ours(benchmark::State& state) {
  over(state, -20, 20, lapwright::atan_deg);
}
void atan_libm(benchmark::State& state) {
  over(state, -20, 20, [](double a) { return std::atan(a); });
}

BENCHMARK(sin_ours);
BENCHMARK(sin_libm);
BENCHMARK(atan_ours);
BENCHMARK(atan_libm);

}  // namespace
