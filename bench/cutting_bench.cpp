#include <benchmark/benchmark.h>

#include <algorithm>
#include <ctime>
#include <vector>

#include "core/cutting/foresee.hpp"
#include "core/cutting/plan.hpp"

/// Held against one frame of a screen, 16 ms: a plan, and what changed passes will do while a finger drags them.
namespace brakewright::cutting {
namespace {

constexpr double kFrameMs = 16;

PlanInput job() {
  return {.outer_radius_mm = 150,
          .inner_radius_mm = 90,
          .approach_mm = 3,
          .needed_outboard_um = 410,
          .needed_inboard_um = 265,
          .start_min_mm = 25.6,
          .machine_to_mm = 24.2,
          .speeds_rpm = {60, 80, 100, 120, 150, 180, 200, 240},
          .feeds_mm_per_rev = {0.05, 0.06, 0.08, 0.1, 0.12, 0.15, 0.18, 0.2, 0.22, 0.25},
          .dial_um_per_mark = 10,
          .nose_radius_mm = 0.4,
          .max_speed_m_per_min = 150,
          .rough_max_um = 250,
          .finish_min_um = 50,
          .finish_max_um = 100,
          .ra_target_um = 1.5,
          .ra_factor = 1.5};
}

ForeseeInput dragged(std::int64_t passes) {
  const PlanInput planned = job();
  ForeseeInput in{.outer_radius_mm = planned.outer_radius_mm,
                  .inner_radius_mm = planned.inner_radius_mm,
                  .approach_mm = planned.approach_mm,
                  .start_min_mm = planned.start_min_mm,
                  .u_start_min_um = 3,
                  .machine_to_mm = planned.machine_to_mm,
                  .discard_mm = 23.8,
                  .dial_um_per_mark = planned.dial_um_per_mark,
                  .speeds_rpm = planned.speeds_rpm,
                  .feeds_mm_per_rev = planned.feeds_mm_per_rev,
                  .nose_radius_mm = planned.nose_radius_mm,
                  .max_speed_m_per_min = planned.max_speed_m_per_min,
                  .rough_max_um = planned.rough_max_um,
                  .finish_min_um = planned.finish_min_um,
                  .finish_max_um = planned.finish_max_um,
                  .ra_target_um = planned.ra_target_um,
                  .ra_factor = planned.ra_factor};
  for (std::int64_t i = 0; i < passes; ++i) {
    in.passes.push_back({.outboard_marks = 8 + i % 5, .inboard_marks = 5 + i % 3, .rpm = 120, .feed_mm_per_rev = 0.1});
  }
  return in;
}

/// Processor time of the slowest call, so that other work on the machine does not count.
template <class Work>
void hold_to_frame(benchmark::State& state, const Work& work) {
  double slowest_ms = 0;
  for (auto _ : state) {
    const std::clock_t start = std::clock();
    work();
    slowest_ms = std::max(slowest_ms, 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
  }
  state.counters["slowest_ms"] = slowest_ms;
  state.counters["of_16_ms"] = slowest_ms / kFrameMs;
}

void plan_a_job(benchmark::State& state) {
  const PlanInput in = job();
  hold_to_frame(state, [&] { benchmark::DoNotOptimize(plan(in)); });
}
BENCHMARK(plan_a_job)->Unit(benchmark::kMicrosecond);

/// @param state  range: passes, each with another depth on either side
void foresee_passes(benchmark::State& state) {
  ForeseeInput in = dragged(state.range(0));
  hold_to_frame(state, [&] {
    in.passes.front().feed_mm_per_rev =
        in.passes.front().feed_mm_per_rev > 0.2 ? 0.05 : in.passes.front().feed_mm_per_rev + 0.001;
    benchmark::DoNotOptimize(foresee(in));
  });
}
BENCHMARK(foresee_passes)->ArgName("passes")->Arg(2)->Arg(6)->Arg(30)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace brakewright::cutting
