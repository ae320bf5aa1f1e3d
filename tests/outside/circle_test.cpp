#include "core/circle/circle.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "core/uncertainty/random.hpp"
#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

Trace signal_of(const Table& data, const std::string& signal) {
  Trace trace;
  for (std::size_t row = 0; row < data.size(); ++row) {
    trace.angles_deg.push_back(data.number(row, "angle_deg"));
    const double outboard = data.number(row, "outboard_um");
    const double inboard = data.number(row, "inboard_um");
    trace.values_um.push_back(signal == "thickness"         ? data.number(row, "thickness_mm") * 1000.0
                              : signal == "midplane_runout" ? (outboard + inboard) / 2.0
                              : signal == "outboard"        ? outboard
                                                            : inboard);
  }
  return trace;
}

void expect_expected(const CircleFit& fit, const Table& expected, const std::string& signal, double tolerance_um) {
  std::size_t seen = 0;
  for (std::size_t row = 0; row < expected.size(); ++row) {
    if (expected.text(row, "signal") != signal) continue;
    const auto& wave = fit.harmonics.at(static_cast<std::size_t>(expected.number(row, "harmonic")) - 1);
    const double amplitude = expected.number(row, "amplitude_um");
    EXPECT_NEAR(wave.amplitude_um, amplitude, tolerance_um);
    const double phase_deg = expected.number(row, "phase_rad") * 180.0 / std::numbers::pi;
    EXPECT_LT(std::abs(std::remainder(wave.phase_deg - phase_deg, 360.0)), tolerance_um / amplitude * 57.3);
    ++seen;
  }
  EXPECT_EQ(seen, 3U);
}

// Source: harmonic_disc_a, made with known waves, printed to 0.0001 um of thickness and 0.000001 um of runout.
TEST(HarmonicDiscA, AllSeventyTwoPointsGiveBackItsWaves) {
  const Table data("harmonic_disc_a.csv");
  const Table expected("harmonic_disc_a_expected.csv");
  expect_expected(fit_circle(signal_of(data, "thickness"), 6), expected, "thickness", 5e-5);
  expect_expected(fit_circle(signal_of(data, "midplane_runout"), 6), expected, "midplane_runout", 1e-6);
}

// Source: harmonic_disc_a, every point of a random third of it.
TEST(HarmonicDiscA, AnUnevenThirdOfThePointsGivesThemToo) {
  const Table data("harmonic_disc_a.csv");
  const Table expected("harmonic_disc_a_expected.csv");
  const Trace all = signal_of(data, "thickness");
  Random random(12);
  Trace some;
  for (std::size_t i = 0; i < all.angles_deg.size(); ++i) {
    if (random.uniform() > 0.34) continue;
    some.angles_deg.push_back(all.angles_deg[i]);
    some.values_um.push_back(all.values_um[i]);
  }
  ASSERT_LT(some.angles_deg.size(), 30U);
  expect_expected(fit_circle(some, 5), expected, "thickness", 3e-4);
}

// Source: harmonic_disc_a, peak to peak of its samples.
TEST(HarmonicDiscA, RangesAreThoseOfItsSamples) {
  const Table data("harmonic_disc_a.csv");
  const Table expected("harmonic_disc_a_expected.csv");
  const auto range = [&](const char* key) { return expected.number(expected.row_of(key), "amplitude_um"); };
  EXPECT_NEAR(fit_circle(signal_of(data, "thickness"), 6).range_um, range("thickness_peak_to_peak_of_samples"), 1e-4);
  EXPECT_NEAR(fit_circle(signal_of(data, "outboard"), 6).range_um, range("outboard_tir_of_samples"), 1e-6);
  EXPECT_NEAR(fit_circle(signal_of(data, "inboard"), 6).range_um, range("inboard_tir_of_samples"), 1e-6);
  const CircleFit fit = fit_circle(signal_of(data, "thickness"), 6);
  EXPECT_GE(fit.fitted_range_um, fit.range_um - 1e-3);
  EXPECT_TRUE(fit.blind_orders.empty());
}

// Source: d2 and d3 of the range of a normal sample, by numerical integration.
TEST(RangeOfNoise, IsD2TimesTheNoiseThoughThePartIsPerfect) {
  const Table factors("range_factors_d2_d3.csv");
  Random random(2026);
  for (std::size_t row = 0; row < factors.size(); ++row) {
    const auto n = static_cast<std::size_t>(factors.number(row, "n"));
    const int trials = 100000;
    std::vector<double> readings(n);
    double sum = 0.0;
    double squares = 0.0;
    for (int trial = 0; trial < trials; ++trial) {
      random.fill_normal(readings);
      const auto [low, high] = std::minmax_element(readings.begin(), readings.end());
      sum += *high - *low;
      squares += (*high - *low) * (*high - *low);
    }
    const double mean = sum / trials;
    EXPECT_NEAR(mean, factors.number(row, "d2"), 0.012) << n;
    EXPECT_NEAR(std::sqrt(squares / trials - mean * mean), factors.number(row, "d3"), 0.012) << n;
  }
}

// Source: d2 for 8 is 2.847 (2.85 s for 8 equal readings of noise s).
TEST(RangeOfNoise, EightPointsRoundAPerfectPartShowIt) {
  const Table factors("range_factors_d2_d3.csv");
  Random random(77);
  Trace trace{.angles_deg = {0, 45, 90, 135, 180, 225, 270, 315}, .values_um = std::vector<double>(8)};
  const int trials = 10000;
  double sum = 0.0;
  for (int trial = 0; trial < trials; ++trial) {
    random.fill_normal(trace.values_um);
    sum += fit_circle(trace, 1).range_um;
  }
  EXPECT_NEAR(sum / trials, factors.number(factors.row_of("8"), "d2"), 0.03);
}

}  // namespace
}  // namespace brakewright::outside
