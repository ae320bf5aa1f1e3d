#include <benchmark/benchmark.h>

#include <cmath>
#include <numbers>

#include "core/disc_modes/plate.hpp"
#include "core/disc_modes/tap_ring.hpp"
#include "core/uncertainty/random.hpp"

/// Held against 50 ms for the modes of a plate and against a second for a tap of three seconds.
namespace brakewright::disc_modes {
namespace {

void BM_ModesUpToSixDiameters(benchmark::State& state) {
  const Plate plate{.outer_radius_mm = 140, .inner_radius_mm = 70, .thickness_mm = 12};
  for (auto _ : state) benchmark::DoNotOptimize(plate_modes(plate, 6, 1));
  state.counters["target_ms"] = 50;
}
BENCHMARK(BM_ModesUpToSixDiameters)->Unit(benchmark::kMillisecond);

void BM_TapOfSixTones(benchmark::State& state) {
  Random random(1);
  std::vector<double> samples(3 * 48000);
  for (std::size_t i = 0; i < samples.size(); ++i) {
    samples[i] = 0.002 * random.normal();
    const double t = static_cast<double>(i) / 48000 - 0.2;
    for (int k = 1; k <= 6 && t > 0; ++k) {
      const double w = 2 * std::numbers::pi * 700 * k * std::sqrt(k);
      samples[i] += 0.1 * std::exp(-0.001 * w * t) * std::cos(w * t);
    }
  }
  std::size_t tones = 0;
  for (auto _ : state) tones = ring_of_tap(samples, 48000).tones.size();
  state.counters["tones"] = static_cast<double>(tones);
  state.counters["target_ms"] = 1000;
}
BENCHMARK(BM_TapOfSixTones)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace brakewright::disc_modes
