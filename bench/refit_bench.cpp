#include <benchmark/benchmark.h>

#include <cmath>
#include <string>

#include "core/refit/refit.hpp"
#include "core/uncertainty/random.hpp"

/// Held against 50 ms for the best of ten studs with twelve plates and twelve harmonics on hub and part each, and
/// against 250 ms with the probabilities of all positions.
namespace brakewright {
namespace {

RefitInput twelve_orders() {
  Random random(8);
  RefitInput input;
  for (auto* waves : {&input.hub, &input.part}) {
    for (int k = 1; k <= 12; ++k) waves->push_back({k, 20 * random.uniform() / k, 360 * random.uniform()});
  }
  input.positions = 10;
  input.radius_mm = 130;
  for (int i = 1; i <= 12; ++i) input.plates.push_back({std::to_string(i), 5.0 * i, 150});
  input.limit_um = 1;
  return input;
}

void run(benchmark::State& state, const RefitInput& input, double target_ms) {
  double runout = 0;
  for (auto _ : state) benchmark::DoNotOptimize(runout += best_refit(input).best.runout_um);
  state.counters["target_ms"] = target_ms;
}

void BM_IndexTenStudsTwelvePlates(benchmark::State& state) { run(state, twelve_orders(), 50); }
BENCHMARK(BM_IndexTenStudsTwelvePlates)->Unit(benchmark::kMillisecond);

void BM_IndexWithProbabilities(benchmark::State& state) {
  RefitInput input = twelve_orders();
  input.u_um = 2;
  run(state, input, 250);
}
BENCHMARK(BM_IndexWithProbabilities)->Unit(benchmark::kMillisecond);

void BM_IndexFromReadingsAtUnevenAngles(benchmark::State& state) {
  RefitInput input = twelve_orders();
  RefitReadings readings{.positions = {}, .noise_sd_um = 2};
  Random random(3);
  for (const double turn : {0.0, 144.0}) {
    PositionTrace position{.turn_deg = turn};
    for (int i = 0; i < 8; ++i) {
      position.trace.angles_deg.push_back(45 * i + 10 * random.uniform());
      position.trace.values_um.push_back(20 * random.normal());
    }
    readings.positions.push_back(position);
  }
  input.readings = readings;
  run(state, input, 1000);
}
BENCHMARK(BM_IndexFromReadingsAtUnevenAngles)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace brakewright
