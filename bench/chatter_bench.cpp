#include <benchmark/benchmark.h>

#include "core/chatter/lobes.hpp"
#include "core/chatter/stability.hpp"

/// Held against 5 s for a chart of 200 speeds by 100 depths of 40 intervals on one core, and against 10 ms for the
/// lobes of three modes at 200 speeds.
namespace brakewright::chatter {
namespace {

void BM_ChartOfInterruptedCutting(benchmark::State& state) {
  constexpr int kSpeeds = 200, kDepths = 100;
  double unstable = 0;
  for (auto _ : state) {
    for (int speed = 0; speed < kSpeeds; ++speed) {
      for (int depth = 1; depth <= kDepths; ++depth) {
        unstable += spectral_radius(InterruptedCutting{.mode = {.mass_kg = 0.03993, .zeta = 0.011, .fn_hz = 922},
                                                       .rpm = 5000 + 20000.0 * speed / kSpeeds,
                                                       .depth_mm = 4.0 * depth / kDepths,
                                                       .teeth = 2,
                                                       .kt_n_per_m2 = 6e8,
                                                       .kn_n_per_m2 = 2e8,
                                                       .radial_ratio = 0.5,
                                                       .direction = Direction::down,
                                                       .intervals = 40}) > 1;
      }
    }
  }
  benchmark::DoNotOptimize(unstable);
  state.counters["target_s"] = 5;
}
BENCHMARK(BM_ChartOfInterruptedCutting)->Unit(benchmark::kSecond)->Iterations(1);

/// A turn of as many waves as the argument says, twenty intervals to each.
void BM_TurningAtBenchSpeed(benchmark::State& state) {
  const double waves = static_cast<double>(state.range(0));
  double radius = 0;
  for (auto _ : state) {
    radius += spectral_radius(Turning{.mode = {.mass_kg = 1.2, .zeta = 0.006, .fn_hz = 500},
                                      .rpm = 60 * 500 / waves,
                                      .depth_mm = 0.1,
                                      .kf_n_per_m2 = 1.5e9,
                                      .intervals = static_cast<std::size_t>(20 * waves)});
  }
  benchmark::DoNotOptimize(radius);
}
BENCHMARK(BM_TurningAtBenchSpeed)->Arg(2)->Arg(20)->Arg(200)->Unit(benchmark::kMillisecond);

void BM_LobesOfThreeModesAt200Speeds(benchmark::State& state) {
  const Mode modes[] = {{.k_n_per_m = 3e7, .zeta = 0.04, .fn_hz = 300},
                        {.k_n_per_m = 1.2e7, .zeta = 0.006, .fn_hz = 520},
                        {.k_n_per_m = 2.5e7, .zeta = 0.01, .fn_hz = 700}};
  std::vector<double> rpm;
  for (int i = 0; i < 200; ++i) rpm.push_back(60 + 2 * i);
  for (auto _ : state) benchmark::DoNotOptimize(limits(modes, 1.5e9, rpm));
  state.counters["target_ms"] = 10;
}
BENCHMARK(BM_LobesOfThreeModesAt200Speeds)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace brakewright::chatter
