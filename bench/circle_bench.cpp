#include <benchmark/benchmark.h>

#include <cmath>
#include <ctime>
#include <numbers>
#include <vector>

#include "core/circle/circle.hpp"
#include "core/uncertainty/random.hpp"

/// Circle fits, held against the time to read the same angles and values once: counter "times_reading".
namespace {

using brakewright::fit_circle;
using brakewright::Random;
using brakewright::Trace;

Trace noisy_trace(Random& random, int points, double scatter_deg) {
  Trace trace;
  for (int j = 0; j < points; ++j) {
    const double angle_deg = 360.0 * (j + scatter_deg * random.uniform()) / points;
    const double angle = angle_deg * std::numbers::pi / 180.0;
    trace.angles_deg.push_back(angle_deg);
    trace.values_um.push_back(20.0 * std::cos(angle - 0.5) + 6.0 * std::cos(2.0 * angle) + random.normal());
  }
  return trace;
}

double read_once(const std::vector<Trace>& traces) {
  double sum = 0.0;
  for (const Trace& trace : traces) {
    for (std::size_t i = 0; i < trace.values_um.size(); ++i) sum += trace.angles_deg[i] + trace.values_um[i];
  }
  return sum;
}

/// Processor time, so that other work on the machine does not count.
template <typename Work>
double seconds(Work work) {
  const std::clock_t start = std::clock();
  work();
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

/// @param state  ranges: traces, points of each, highest order, scatter of the angles in per cent of their step
void fit_all(benchmark::State& state) {
  Random random(1);
  std::vector<Trace> traces;
  for (int i = 0; i < state.range(0); ++i) {
    traces.push_back(
        noisy_trace(random, static_cast<int>(state.range(1)), static_cast<double>(state.range(3)) / 100.0));
  }
  const int order = static_cast<int>(state.range(2));
  double fitting = 0.0;
  double reading = 0.0;
  for (auto _ : state) {
    fitting += seconds([&] {
      for (const Trace& trace : traces) benchmark::DoNotOptimize(fit_circle(trace, order));
    });
    state.PauseTiming();
    reading += seconds([&] { benchmark::DoNotOptimize(read_once(traces)); });
    state.ResumeTiming();
  }
  state.counters["times_reading"] = fitting / reading;
  state.counters["us_per_trace"] =
      1e6 * fitting / (static_cast<double>(state.iterations()) * static_cast<double>(state.range(0)));
}

BENCHMARK(fit_all)
    ->ArgNames({"traces", "points", "order", "scatter_pct"})
    ->Args({10000, 36, 3, 0})
    ->Args({10000, 36, 8, 0})
    ->Args({10000, 36, 3, 40})
    ->Args({1, 100000, 3, 0})
    ->Args({1, 100000, 12, 0})
    ->Args({1, 100000, 12, 40})
    ->Unit(benchmark::kMillisecond);

}  // namespace
