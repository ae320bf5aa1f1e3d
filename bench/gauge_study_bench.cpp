#include <benchmark/benchmark.h>

#include <ctime>
#include <string>

#include "core/gauge_study/anova.hpp"
#include "core/gauge_study/gauge_study.hpp"
#include "core/gauge_study/order.hpp"
#include "core/uncertainty/random.hpp"

/// A study with its intervals is held against one frame of a screen, 16 ms, and against one pass over the same
/// readings: the one-way table of the same values, grouped by part.
namespace brakewright::gauge_study {
namespace {

constexpr double kFrameMs = 16;

Input study(std::size_t parts, std::size_t operators, std::size_t repeats) {
  Random random(8);
  Input input;
  for (std::size_t p = 0; p < parts; ++p) {
    const double part = 25 + 0.05 * random.normal();
    for (std::size_t o = 0; o < operators; ++o) {
      for (std::size_t k = 0; k < repeats; ++k) {
        input.rows.push_back({.part = "part " + std::to_string(p),
                              .operator_name = "person " + std::to_string(o),
                              .value = part + 0.001 * static_cast<double>(o) + 0.002 * random.normal()});
      }
    }
  }
  return input;
}

/// Processor time, so that other work on the machine does not count.
template <class Work>
double ms_of(std::int64_t times, const Work& work) {
  const std::clock_t start = std::clock();
  for (std::int64_t i = 0; i < times; ++i) work();
  return 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC / static_cast<double>(times);
}

double one_pass_ms(const Input& input, std::size_t parts) {
  std::vector<std::vector<double>> groups(parts);
  const std::size_t each = input.rows.size() / parts;
  for (std::size_t i = 0; i < input.rows.size(); ++i) groups[i / each].push_back(input.rows[i].value);
  return ms_of(200, [&] { benchmark::DoNotOptimize(one_way_anova(groups)); });
}

/// @param state  parts, operators, repeats
void study_whole(benchmark::State& state) {
  const auto parts = static_cast<std::size_t>(state.range(0));
  const Input input = study(parts, static_cast<std::size_t>(state.range(1)), static_cast<std::size_t>(state.range(2)));
  double ms = 0;
  for (auto _ : state) ms += ms_of(1, [&] { benchmark::DoNotOptimize(study_gauge(input)); });
  ms /= static_cast<double>(state.iterations());
  state.counters["of_16_ms"] = ms / kFrameMs;
  state.counters["of_one_pass"] = ms / one_pass_ms(input, parts);
}
BENCHMARK(study_whole)
    ->ArgNames({"parts", "operators", "repeats"})
    ->Args({10, 3, 3})
    ->Args({10, 20, 3})
    ->Args({100, 10, 5})
    ->Unit(benchmark::kMillisecond);

void plan_whole(benchmark::State& state) {
  double ms = 0;
  for (auto _ : state) ms += ms_of(1, [] { benchmark::DoNotOptimize(plan_study(100, 10, 5, 1)); });
  state.counters["of_16_ms"] = ms / static_cast<double>(state.iterations()) / kFrameMs;
}
BENCHMARK(plan_whole)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace brakewright::gauge_study
