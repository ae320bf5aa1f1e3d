#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <iostream>
#include <numbers>

#include "core/thickness/thickness.hpp"
#include "core/uncertainty/random.hpp"

/// How often the 95 % interval of the true variation holds the truth: over 2000 simulated discs of each kind.
namespace brakewright {
namespace {

constexpr int kDiscs = 2000;
constexpr std::size_t kOrders = 12;
using Waves = std::array<double, 2 * kOrders>;  ///< cosine and sine of each order, um

struct Gauge {
  int spots;
  double repeatability_um;
  double resolution_um;
  int repeats = 1;
};

using Kind = std::function<Waves(Random&)>;

Kind normal_waves(std::function<double(std::size_t order)> sd_um) {
  return [sd_um](Random& random) {
    Waves waves{};
    for (std::size_t k = 1; k <= kOrders; ++k) {
      waves[2 * k - 2] = sd_um(k) * random.normal();
      waves[2 * k - 1] = sd_um(k) * random.normal();
    }
    return waves;
  };
}

double value_at(const Waves& waves, double turn) {
  double sum = 0;
  for (std::size_t k = 1; k <= kOrders; ++k) {
    const double phase = 2 * std::numbers::pi * turn * static_cast<double>(k);
    sum += waves[2 * k - 2] * std::cos(phase) + waves[2 * k - 1] * std::sin(phase);
  }
  return sum;
}

double true_variation_um(const Waves& waves) {
  double highest = -1e9;
  double lowest = 1e9;
  for (int i = 0; i < 720; ++i) {
    const double value = value_at(waves, i / 720.0);
    highest = std::max(highest, value);
    lowest = std::min(lowest, value);
  }
  return highest - lowest;
}

ThicknessInput measured(const Waves& waves, const Gauge& gauge, std::uint64_t seed, Random& random) {
  ThicknessInput input;
  input.micrometer = {.resolution_mm = gauge.resolution_um / 1000,
                      .mpe_mm = 0.002,
                      .repeatability_mm = gauge.repeatability_um / 1000,
                      .zero_error_mm = 0};
  input.seed = seed;
  input.draws = 1000;
  const double mean_um = 22000 + 100 * random.uniform();
  for (int i = 0; i < gauge.spots; ++i) {
    const double turn = static_cast<double>(i) / gauge.spots;
    ThicknessPoint point{.angle_deg = 360 * turn, .radius_mm = std::nullopt, .values_mm = {}};
    for (int n = 0; n < gauge.repeats; ++n) {
      const double reading = mean_um + value_at(waves, turn) + gauge.repeatability_um * random.normal();
      point.values_mm.push_back(std::round(reading / gauge.resolution_um) * gauge.resolution_um / 1000);
    }
    input.readings.push_back(point);
  }
  return input;
}

/// Per cent of discs whose truth lies within the interval.
double coverage(const char* name, const Kind& kind, const Gauge& gauge) {
  Random random(20240501);
  int held = 0;
  int under = 0;
  for (int i = 0; i < kDiscs; ++i) {
    const Waves waves = kind(random);
    const Posterior found =
        reduce_thickness(measured(waves, gauge, static_cast<std::uint64_t>(i), random)).true_variation_mm;
    const double truth = true_variation_um(waves) / 1000;
    if (truth < found.low95 - 1e-7) {
      ++under;
    } else if (truth <= found.high95 + 1e-7) {
      ++held;
    }
  }
  const double rate = 100.0 * held / kDiscs;
  std::cout << name << ": held " << rate << " %, low end above the truth " << 100.0 * under / kDiscs << " %\n";
  return rate;
}

void expect_calibrated(const char* name, const Kind& kind, const Gauge& gauge, double least = 93, double most = 97) {
  const double rate = coverage(name, kind, gauge);
  EXPECT_GE(rate, least) << name;
  EXPECT_LE(rate, most) << name;
}

const Kind kOncePerTurn = normal_waves([](std::size_t k) { return k == 1 ? 5.0 : k == 2 ? 1.0 : k == 3 ? 0.3 : 0.0; });
const Kind kThreeAlike = normal_waves([](std::size_t k) { return k <= 3 ? 3.0 : 0.0; });
const Kind kTwicePerTurn = normal_waves([](std::size_t k) { return k == 1 ? 1.0 : k == 2 ? 4.0 : k == 3 ? 0.5 : 0.0; });
const Kind kLarge = normal_waves([](std::size_t k) { return k <= 3 ? 30.0 / static_cast<double>(k) : 0.0; });
const Kind kRough = normal_waves([](std::size_t k) { return k <= 8 ? 4.0 / static_cast<double>(k) : 0.0; });
const Kind kSmooth = normal_waves([](std::size_t k) { return 6.0 / static_cast<double>(k * k); });
const Kind kFlat = normal_waves([](std::size_t k) { return k <= 3 ? 0.15 : 0.0; });
const Kind kPerfect = normal_waves([](std::size_t) { return 0.0; });

/// Discs of all sizes, from flat to badly worn.
Waves any_size(Random& random) {
  const double size_um = 0.3 * std::pow(100, random.uniform());
  return normal_waves([&](std::size_t k) { return k <= 4 ? size_um / static_cast<double>(k) : 0.0; })(random);
}

/// Amplitudes spread evenly up to 8, 3 and 1.5 um, any phase.
Waves even_amplitudes(Random& random) {
  Waves waves{};
  constexpr std::array kMost = {8.0, 3.0, 1.5};
  for (std::size_t k = 0; k < kMost.size(); ++k) {
    const double amplitude = kMost[k] * random.uniform();
    const double phase = 2 * std::numbers::pi * random.uniform();
    waves[2 * k] = amplitude * std::cos(phase);
    waves[2 * k + 1] = amplitude * std::sin(phase);
  }
  return waves;
}

constexpr Gauge kEight{.spots = 8, .repeatability_um = 1, .resolution_um = 1};
constexpr Gauge kTwelve{.spots = 12, .repeatability_um = 1, .resolution_um = 1};

TEST(TrueVariationInterval, HoldsTheTruthOfDiscsOfAnySizeReadAtEightPoints) {
  expect_calibrated("any size, 8 spots", any_size, kEight, 93, 97.9);
  expect_calibrated("even amplitudes, 8 spots", even_amplitudes, kEight, 93, 97.5);
}

TEST(TrueVariationInterval, HoldsTheTruthOfDiscsOfAnySizeReadAtTwelvePoints) {
  expect_calibrated("any size, 12 spots", any_size, kTwelve, 93, 97.9);
  expect_calibrated("even amplitudes, 12 spots", even_amplitudes, kTwelve, 93, 97.5);
}

TEST(TrueVariationInterval, HoldsTheTruthWhereOneOrderRules) {
  expect_calibrated("once per turn, 8 spots", kOncePerTurn, kEight);
  expect_calibrated("once per turn, 12 spots", kOncePerTurn, kTwelve);
  expect_calibrated("twice per turn, 12 spots", kTwicePerTurn, kTwelve);
}

TEST(TrueVariationInterval, HoldsTheTruthWhereOrdersAreAlike) {
  expect_calibrated("orders 1 to 3 alike, 8 spots", kThreeAlike, kEight, 93, 98.5);
  expect_calibrated("orders 1 to 3 alike, 12 spots", kThreeAlike, kTwelve);
  expect_calibrated("orders 1 to 3 alike, 16 spots of 0.5 um", kThreeAlike, {16, 0.5, 1});
}

TEST(TrueVariationInterval, HoldsTheTruthOfNearlyFlatDiscs) {
  expect_calibrated("nearly flat, 8 spots", kFlat, kEight, 93, 98);
  expect_calibrated("nearly flat, 12 spots", kFlat, kTwelve, 93, 98);
  expect_calibrated("perfect, 12 spots", kPerfect, kTwelve, 93, 98);
}

TEST(TrueVariationInterval, HoldsTheTruthOfLargeAndOfRoughPatterns) {
  expect_calibrated("large, 12 spots", kLarge, kTwelve);
  expect_calibrated("smooth, 8 spots", kSmooth, kEight);
  expect_calibrated("rough, 16 spots", kRough, {16, 1, 1}, 93, 98);
  // Orders that eight spots cannot see are taken to be as likely as the seen ones make them: where there are none, the
  // interval is wider than it need be.
  expect_calibrated("large, 8 spots", kLarge, kEight, 93, 99.9);
}

TEST(TrueVariationInterval, HoldsTheTruthWithOtherGauges) {
  expect_calibrated("any size, 12 spots of 0.0001 in", any_size, {12, 1, 2.54}, 93, 98);
  expect_calibrated("any size, 8 spots of 3 um, three times", any_size, {8, 3, 1, 3}, 93, 98.5);
  expect_calibrated("once per turn, 12 spots of 0.01 mm", kOncePerTurn, {12, 2, 10}, 93, 98);
  expect_calibrated("nearly flat, 12 spots of 0.01 mm", kFlat, {12, 1, 10}, 93, 99);
}

TEST(TrueVariationInterval, IsAsGoodAsFourPointsCanBe) {
  // Four spots are blind to two waves per turn: calibration then rests on how likely such waves are.
  expect_calibrated("any size, 4 spots", any_size, {4, 1, 1}, 90, 99);
  expect_calibrated("once per turn, 4 spots", kOncePerTurn, {4, 1, 1}, 90, 99.5);
}

}  // namespace
}  // namespace brakewright
