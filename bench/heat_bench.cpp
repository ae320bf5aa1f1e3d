#include <benchmark/benchmark.h>

#include "core/heat/heat.hpp"

/// Held against 10 ms for twenty repeated stops, before and after a cut.
namespace brakewright::heat {
namespace {

void BM_TwentyStopsBeforeAndAfter(benchmark::State& state) {
  HeatInput input;
  input.t_stop_s = 4;
  input.vehicle =
      Vehicle{.mass_kg = 1400,
              .speed_km_per_h = 100,
              .disc_share = 0.35,
              .disc = {.outer_radius_mm = 140, .inner_radius_mm = 85, .thickness_mm = 22, .cheek_thickness_mm = 7}};
  input.vented = true;
  input.before_depth_mm = 7;
  input.after_depth_mm = 6.6;
  input.repeats = Repeats{.stops = 20, .interval_s = 60};
  double hottest = 0;
  for (auto _ : state) benchmark::DoNotOptimize(hottest += heat_of_stop(input).repeats->stops.back().end_c.high);
  state.counters["target_ms"] = 10;
}
BENCHMARK(BM_TwentyStopsBeforeAndAfter)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace brakewright::heat
