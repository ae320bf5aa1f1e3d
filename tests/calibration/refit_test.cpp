#include "core/refit/refit.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>

#include "tests/core/refit/simulated_fit.hpp"

namespace brakewright {
namespace {

/// What a predicted probability or interval is worth over many simulated cars.
struct Tally {
  std::array<double, 10> predicted{}, came{}, cases{};
  int held = 0, asked = 0;

  void add(const FittedRunout& foreseen, double true_um, double limit_um) {
    const double p = *foreseen.p_within;
    const auto decile = static_cast<std::size_t>(std::min(9.0, std::floor(10 * p)));
    predicted[decile] += p;
    came[decile] += true_um <= limit_um;
    cases[decile] += 1;
    held += true_um >= foreseen.true_runout_um->low95 && true_um <= foreseen.true_runout_um->high95;
    ++asked;
  }

  void expect_calibrated(const char* name) const {
    const double rate = static_cast<double>(held) / asked;
    std::printf("  %s: 95 %% intervals hold %.1f %% of %d\n", name, 100 * rate, asked);
    EXPECT_GE(rate, 0.93) << name;
    EXPECT_LE(rate, 0.97) << name;
    for (std::size_t i = 0; i < 10; ++i) {
      if (cases[i] < 20) continue;
      const double said = predicted[i] / cases[i], came_true = came[i] / cases[i];
      std::printf("  %s: said %.3f, came true %.3f of %.0f\n", name, said, came_true, cases[i]);
      const double scatter = std::sqrt(std::max(said * (1 - said), 0.01) / cases[i]);
      EXPECT_NEAR(said, came_true, 0.03 + 3 * scatter) << name << ' ' << i;
    }
  }
};

/// A simulated hub and part: tilt of any size, higher orders falling in many ways, some of them flat.
struct Car {
  std::vector<Harmonic> hub, part;
};

Car drawn_car(Random& random) {
  const double falls[] = {1, 1.5, 2, 3};
  const double hub = 3 + 22 * random.uniform(), part = 3 + 22 * random.uniform();
  return {.hub = drawn_waves(random, 6, hub, falls[random.below(4)]),
          .part = drawn_waves(random, 6, part, falls[random.below(4)])};
}

RefitReadings read_car(const Car& car, const std::vector<double>& turns_deg, int angles, double noise_um,
                       Random& random) {
  RefitReadings readings{.positions = {}, .noise_sd_um = noise_um};
  for (const double turn : turns_deg) {
    PositionTrace position{.turn_deg = turn};
    const double level = 50 * random.normal();
    for (int i = 0; i < angles; ++i) {
      const double angle = 360.0 * i / angles;
      position.trace.angles_deg.push_back(angle);
      position.trace.values_um.push_back(level + curve(car.hub, angle) + curve(car.part, angle - turn) +
                                         noise_um * random.normal());
    }
    readings.positions.push_back(position);
  }
  return readings;
}

/// @param read  the readings of a car with so much noise
template <class Read>
void try_cars(const char* name, int cars, std::uint64_t seed, bool by_likely, Read&& read) {
  Random random(seed);
  Tally tally;
  for (int n = 0; n < cars; ++n) {
    const Car car = drawn_car(random);
    RefitInput input;
    input.positions = 5;
    input.limit_um = 10 + 60 * random.uniform();
    input.readings = read(car, 2 + 3 * random.uniform(), random);
    input.seed = static_cast<std::uint64_t>(n);
    input.draws = 400;
    input.by_likely = by_likely;
    const FittedRunout best = best_refit(input).best;
    tally.add(best, spread_on_grid(car.hub, car.part, best.turn_deg, 0, 0, 720), *input.limit_um);
  }
  tally.expect_calibrated(name);
}

void try_cars(const char* name, int cars, const std::vector<double>& turns_deg, int angles, std::uint64_t seed) {
  try_cars(name, cars, seed, false, [&](const Car& car, double noise_um, Random& random) {
    return read_car(car, turns_deg, angles, noise_um, random);
  });
}

// Known truth: 2,000 simulated hubs and rotors, read with noise in two, three or one position.
TEST(RefitCoverage, TwoPositionsForeseeTheRunoutOfTheBestOne) { try_cars("two positions", 1000, {0, 144}, 12, 1); }

TEST(RefitCoverage, ThreePositionsForeseeTheRunoutOfTheBestOne) {
  try_cars("three positions", 500, {0, 72, 216}, 8, 2);
}

TEST(RefitCoverage, FourPointsByEyeInTwoPositionsForeseeIt) { try_cars("four points", 500, {0, 144}, 4, 3); }

TEST(RefitCoverage, TheBestByItsMedianIsForeseenAsWell) {
  try_cars("by likely", 500, 5, true, [](const Car& car, double noise_um, Random& random) {
    return read_car(car, {0, 144}, 8, noise_um, random);
  });
}

// Known truth: 2,000 simulated hubs and rotors, each wave known with a stated uncertainty of its own.
TEST(RefitCoverage, WavesWithUncertaintiesForeseeTheRunoutOfTheBestPosition) {
  Random random(4);
  Tally tally;
  for (int n = 0; n < 2000; ++n) {
    const Car car = drawn_car(random);
    RefitInput input;
    input.positions = 5;
    input.limit_um = 10 + 60 * random.uniform();
    const double u = 1 + 2 * random.uniform();
    const auto seen = [&](const std::vector<Harmonic>& waves) {
      std::vector<Harmonic> read;
      for (const Harmonic& wave : waves) {
        const double phase = wave.phase_deg * kRadPerDeg;
        const double a = wave.amplitude_um * std::cos(phase) + u * random.normal();
        const double b = wave.amplitude_um * std::sin(phase) + u * random.normal();
        read.push_back({wave.order, std::hypot(a, b), std::atan2(b, a) / kRadPerDeg, u});
      }
      return read;
    };
    input.hub = seen(car.hub);
    input.part = seen(car.part);
    input.seed = static_cast<std::uint64_t>(n);
    input.draws = 400;
    const FittedRunout best = best_refit(input).best;
    tally.add(best, spread_on_grid(car.hub, car.part, best.turn_deg, 0, 0, 720), *input.limit_um);
  }
  tally.expect_calibrated("waves");
}

}  // namespace
}  // namespace brakewright
