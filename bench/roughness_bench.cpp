#include <benchmark/benchmark.h>

#include <cmath>
#include <numbers>

#include "core/roughness/gaussian.hpp"
#include "core/roughness/roughness.hpp"
#include "core/uncertainty/random.hpp"

/// Held against 50 ms for a long traverse and against the plain sum over all neighbours.
namespace brakewright::roughness {
namespace {

constexpr double kSpacing_um = 0.5, kCutoff_um = 800;

Profile traverse(std::size_t points) {
  Random random(1);
  Profile profile{.spacing_um = kSpacing_um, .z_um = {}};
  for (std::size_t i = 0; i < points; ++i) {
    profile.z_um.push_back(3 * std::sin(2 * std::numbers::pi * static_cast<double>(i) / 200) + 0.2 * random.normal());
  }
  return profile;
}

void BM_SixteenMillimetres(benchmark::State& state) {
  const Profile profile = traverse(32'000);
  for (auto _ : state) benchmark::DoNotOptimize(roughness_of(profile, {.cutoff_mm = 0.8, .short_cutoff_um = 2.5}));
  state.counters["target_ms"] = 50;
}
BENCHMARK(BM_SixteenMillimetres)->Unit(benchmark::kMillisecond);

void BM_TheLongestProfileWithItsCutOffSuggested(benchmark::State& state) {
  const Profile profile = traverse(kMostPoints);
  for (auto _ : state) benchmark::DoNotOptimize(roughness_of(profile, {}));
  state.counters["target_ms"] = 1000;
}
BENCHMARK(BM_TheLongestProfileWithItsCutOffSuggested)->Unit(benchmark::kMillisecond);

void BM_MeanLineOfSixteenMillimetres(benchmark::State& state) {
  const Profile profile = traverse(32'000);
  for (auto _ : state) benchmark::DoNotOptimize(mean_line(profile.z_um, kSpacing_um, kCutoff_um));
}
BENCHMARK(BM_MeanLineOfSixteenMillimetres)->Unit(benchmark::kMillisecond);

/// The same without its ends, by the plain sum.
void BM_TheSameByThePlainSum(benchmark::State& state) {
  const Profile profile = traverse(32'000);
  constexpr std::size_t reach = 2400;  // one and a half cut-offs
  std::vector<double> weights;
  for (std::size_t k = 0; k <= 2 * reach; ++k) {
    const double out = static_cast<double>(k) - static_cast<double>(reach);
    weights.push_back(kSpacing_um * 1e-3 * gaussian_weight(out * kSpacing_um * 1e-3, kCutoff_um * 1e-3));
  }
  std::vector<double> line(profile.z_um.size());
  for (auto _ : state) {
    for (std::size_t i = reach; i + reach < line.size(); ++i) {
      double sum = 0;
      for (std::size_t k = 0; k <= 2 * reach; ++k) sum += weights[k] * profile.z_um[i - reach + k];
      line[i] = sum;
    }
    benchmark::DoNotOptimize(line.data());
  }
}
BENCHMARK(BM_TheSameByThePlainSum)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace brakewright::roughness
