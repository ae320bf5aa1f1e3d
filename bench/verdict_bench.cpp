#include <benchmark/benchmark.h>

#include <cmath>
#include <numbers>

#include "core/cleanup/cleanup.hpp"
#include "core/verdict/verdict.hpp"

/// Held against 20 ms for the verdict of a whole job: two rotors of twelve spots, a trace each, 20,000 draws.
namespace brakewright {
namespace {

constexpr double kTargetMs = 20;

PartReadings rotor(const char* name, double mean_mm) {
  PartReadings part;
  part.name = name;
  part.limits = {.nominal = LengthLimit{24.0, "cast on the part"},
                 .machine_to = LengthLimit{22.0, "service information"},
                 .discard = LengthLimit{21.6, "cast on the part"},
                 .variation = LengthLimit{0.015, "service information"},
                 .runout = LengthLimit{0.1, "service information"},
                 .scoring = std::nullopt,
                 .finish = std::nullopt};
  part.micrometer = {.resolution_mm = 0.001, .mpe_mm = 0.002, .repeatability_mm = 0.001, .zero_error_mm = 0};
  RunoutReadings trace{.carrier = Carrier::arbor, .outboard = {}, .indicator = {}};
  for (int i = 0; i < 12; ++i) {
    const double angle = i * std::numbers::pi / 6;
    const double thickness_um = 1000 * mean_mm + 9 * std::cos(angle - 1) + 4 * std::cos(2 * angle);
    part.readings.push_back(
        {.angle_deg = 30.0 * i, .radius_mm = std::nullopt, .values_mm = {std::round(thickness_um) / 1000}});
    trace.outboard.angles_deg.push_back(30.0 * i);
    trace.outboard.values_um.push_back(std::round(20 * std::cos(angle)));
  }
  part.arbor_runout = trace;
  part.scoring = {.outboard_um = 50, .inboard_um = 30, .u_um = 5};
  return part;
}

VerdictInput whole_job(std::size_t draws, double mean_mm) {
  VerdictInput job;
  job.parts = {rotor("left", mean_mm), rotor("right", mean_mm - 0.02)};
  job.margin_um = 10;
  job.draws = draws;
  return job;
}

void judge_whole_job(benchmark::State& state) {
  const VerdictInput job = whole_job(static_cast<std::size_t>(state.range(0)), 22.4);
  for (auto _ : state) benchmark::DoNotOptimize(judge(job));
  state.counters["share_of_20_ms"] = benchmark::Counter(static_cast<double>(state.iterations()) * kTargetMs / 1000,
                                                        benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}
BENCHMARK(judge_whole_job)->Arg(20000)->Arg(2000)->Unit(benchmark::kMillisecond);

/// With the search for the next measurement on top.
void judge_near_its_limit(benchmark::State& state) {
  const VerdictInput job = whole_job(20000, 22.185);
  for (auto _ : state) benchmark::DoNotOptimize(judge(job));
}
BENCHMARK(judge_near_its_limit)->Unit(benchmark::kMillisecond);

void reduce_one_rotor(benchmark::State& state) {
  ThicknessInput input;
  const PartReadings part = rotor("left", 22.4);
  input.readings = part.readings;
  input.micrometer = part.micrometer;
  input.variation_limit_mm = 0.015;
  for (auto _ : state) benchmark::DoNotOptimize(reduce_thickness(input));
}
BENCHMARK(reduce_one_rotor)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace brakewright
