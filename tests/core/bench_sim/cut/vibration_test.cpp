#include "core/bench_sim/cut/vibration.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <complex>
#include <numbers>

#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr double kPi = std::numbers::pi;

chatter::Mode some_mode(Random& random) {
  return {.k_n_per_m = std::pow(10, 6 + 2 * random.uniform()),
          .zeta = std::pow(10, -3 + 2.5 * random.uniform()),
          .fn_hz = 50 + 2000 * random.uniform(),
          .weight = 0.2 + random.uniform()};
}

/// Deflection under a force that grows by 1 N a second from time 0, textbook of a damped oscillator.
double ramp_um(const chatter::Mode& mode, double t) {
  if (t <= 0) return 0;
  const double w = 2 * kPi * mode.fn_hz, z = mode.zeta, wd = w * std::sqrt(1 - z * z);
  const double swing = std::exp(-z * w * t) * (2 * z / w * std::cos(wd * t) + (2 * z * z - 1) / wd * std::sin(wd * t));
  return 1e6 * mode.weight / mode.k_n_per_m * (t - 2 * z / w + swing);
}

TEST(Vibration, UnderAForceThatRisesOverOneStepItIsTheClosedForm) {
  Random random(21);
  for (int trial = 0; trial < 500; ++trial) {
    const chatter::Mode mode = some_mode(random);
    const double dt = (0.02 + 0.3 * random.uniform()) / mode.fn_hz;
    Vibration vibration({&mode, 1}, dt);
    const double scale = vibration.static_um_per_n();
    for (int k = 1; k <= 200; ++k) {
      vibration.advance(1);
      const double want = (ramp_um(mode, k * dt) - ramp_um(mode, (k - 1) * dt)) / dt;
      EXPECT_NEAR(vibration.deflection_um() / scale, want / scale, 3e-11) << trial << ' ' << k;
    }
  }
}

TEST(Vibration, AfterABlowItRingsDownAsTheClosedForm) {
  Random random(22);
  for (int trial = 0; trial < 500; ++trial) {
    const chatter::Mode mode = some_mode(random);
    const double dt = (0.02 + 0.3 * random.uniform()) / mode.fn_hz;
    const double w = 2 * kPi * mode.fn_hz, wd = w * std::sqrt(1 - mode.zeta * mode.zeta);
    Vibration vibration({&mode, 1}, dt);
    vibration.knock(wd);
    for (int k = 1; k <= 200; ++k) {
      vibration.advance(0);
      const double t = k * dt;
      EXPECT_NEAR(vibration.deflection_um(), mode.weight * std::exp(-mode.zeta * w * t) * std::sin(wd * t), 2e-12);
    }
  }
}

/// A wave drawn as straight lines between its values at each step holds all waves that agree with it there, each
/// weaker by the square of its sinc; the oscillator answers each by its own flexibility.
std::complex<double> answer_to_drawn_wave(const std::vector<chatter::Mode>& modes, double hz, double dt) {
  std::complex<double> sum = 0;
  for (int m = -3000; m <= 3000; ++m) {
    const double alias_hz = hz + m / dt, half = kPi * alias_hz * dt;
    const double weaker = std::pow(std::sin(half) / half, 2);
    const auto g = chatter::flexibility_m_per_n(modes, std::abs(alias_hz));
    sum += weaker * (alias_hz < 0 ? std::conj(g) : g) * 1e6;
  }
  return sum;
}

TEST(Vibration, UnderAWaveItSettlesToTheFlexibilityOfItsModes) {
  Random random(23);
  for (int trial = 0; trial < 20; ++trial) {
    std::vector<chatter::Mode> modes = {some_mode(random), some_mode(random)};
    for (auto& mode : modes) mode.zeta = 0.02 + 0.1 * random.uniform();
    const double hz = 100 + 1000 * random.uniform();
    const double dt = 0.3 / std::max({hz, modes[0].fn_hz, modes[1].fn_hz});
    const auto answer = answer_to_drawn_wave(modes, hz, dt);
    Vibration vibration(modes, dt);
    for (int k = 0; k < 40000; ++k) {
      const auto wave = std::polar(1.0, 2 * kPi * std::fmod(hz * dt * k, 1));
      vibration.advance(wave.real());
      if (k < 39900) continue;
      EXPECT_NEAR(vibration.deflection_um() / std::abs(answer), (answer * wave).real() / std::abs(answer), 1e-9);
    }
  }
}

TEST(Vibration, WhatItForeseesIsWhatComesOfAForceThatGoesOnStraight) {
  Random random(24);
  const chatter::Mode modes[] = {some_mode(random), some_mode(random)};
  Vibration vibration(modes, 1e-4);
  for (int k = 0; k < 500; ++k) {
    const double foreseen = vibration.foreseen_um();
    vibration.advance(3 + 0.5 * k);
    if (k < 2) continue;
    EXPECT_NEAR(vibration.deflection_um(), foreseen, 1e-12 * (1 + std::abs(foreseen)));
  }
}

TEST(Vibration, ItGoesOnWhereItWasWhenTheStepChanges) {
  const chatter::Mode mode{.k_n_per_m = 1e7, .zeta = 0.01, .fn_hz = 400};
  Vibration one({&mode, 1}, 1e-4), other({&mode, 1}, 1e-4);
  one.knock(1000);
  other.knock(1000);
  for (int k = 0; k < 40; ++k) one.advance(0);
  for (int k = 0; k < 20; ++k) other.advance(0);
  other.set_step(2e-4);
  for (int k = 0; k < 10; ++k) other.advance(0);
  EXPECT_NEAR(one.deflection_um(), other.deflection_um(), 1e-12);
}

TEST(Vibration, NoModesAreRigid) {
  Vibration rigid({}, 1e-4);
  rigid.advance(1000);
  EXPECT_EQ(rigid.deflection_um(), 0);
  EXPECT_EQ(rigid.foreseen_um(), 0);
}

TEST(Vibration, ADampingBandMultipliesDampingUpToNearlyCritical) {
  const chatter::Mode disc[] = {{.k_n_per_m = 1e7, .zeta = 0.006, .fn_hz = 500},
                                {.k_n_per_m = 1e7, .zeta = 0.3, .fn_hz = 900}};
  const auto damped = with_band(disc, 10);
  EXPECT_DOUBLE_EQ(damped[0].zeta, 0.06);
  EXPECT_DOUBLE_EQ(damped[1].zeta, 0.99);
  EXPECT_EQ(damped[0].fn_hz, 500);
  EXPECT_THROW(with_band(disc, 0.5), InputError);
  EXPECT_THROW(with_band(disc, std::nan("")), InputError);
}

}  // namespace
}  // namespace brakewright::bench_sim
