#include "core/chatter/stability.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "core/chatter/interval_step.hpp"
#include "core/chatter/lobes.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::chatter {
namespace {

constexpr double kCuttingForce = 1.5e9;

Turning cut_of(const Mode& mode, double rpm, double depth_mm, std::size_t intervals) {
  const double wn = 2 * std::numbers::pi * mode.fn_hz;
  return {.mode = {.mass_kg = mode.k_n_per_m / (wn * wn), .zeta = mode.zeta, .fn_hz = mode.fn_hz},
          .rpm = rpm,
          .depth_mm = depth_mm,
          .kf_n_per_m2 = kCuttingForce,
          .intervals = intervals};
}

TEST(IntervalStep, IsTheOscillatorsOwnMotion) {
  const double stiffness = 4, damping = 0.6;
  const double real = -damping / 2, swing = std::sqrt(stiffness - real * real), fall = std::exp(real);
  const IntervalStep step = interval_step(damping, stiffness, 0.3);
  EXPECT_NEAR(step.p_xx, fall * (std::cos(swing) - real / swing * std::sin(swing)), 1e-13);
  EXPECT_NEAR(step.p_xv, fall * std::sin(swing) / swing, 1e-13);
  EXPECT_NEAR(step.p_vx, -stiffness * fall * std::sin(swing) / swing, 1e-13);
  // a constant push b u moves the place of rest to b u/c
  EXPECT_NEAR(step.r0_x + step.r1_x, 0.3 / stiffness * (1 - step.p_xx), 1e-13);
  EXPECT_NEAR(step.r0_v + step.r1_v, -0.3 / stiffness * step.p_vx, 1e-13);
}

TEST(IntervalStep, HoldsWithoutStiffnessAndAgainstIt) {
  const IntervalStep free = interval_step(0, 0, 1);
  EXPECT_NEAR(free.p_xv, 1, 1e-14);
  EXPECT_NEAR(free.r0_x, 1.0 / 3, 1e-14);
  EXPECT_NEAR(free.r1_x, 1.0 / 6, 1e-14);
  EXPECT_NEAR(interval_step(0, -9, 0).p_xx / std::cosh(3), 1, 1e-13);
}

TEST(Stability, UnstableExactlyWhereTheLobesSayWithinOnePerCentOver500Cuts) {
  Random random(21);
  for (int trial = 0; trial < 500; ++trial) {
    const Mode mode{.k_n_per_m = std::pow(10, 6.5 + random.uniform()),
                    .zeta = std::pow(10, -2.3 + 1.2 * random.uniform()),
                    .fn_hz = 80 + 800 * random.uniform()};
    const double rpm = 60 * mode.fn_hz / std::pow(10, 1.3 * random.uniform());
    const double limit_mm = limit_of_one_mode(mode, kCuttingForce, rpm).depth_mm;
    const auto intervals = static_cast<std::size_t>(100 + 40 * mode.fn_hz * 60 / rpm);
    EXPECT_LT(spectral_radius(cut_of(mode, rpm, 0.99 * limit_mm, intervals)), 1) << trial;
    EXPECT_GT(spectral_radius(cut_of(mode, rpm, 1.01 * limit_mm, intervals)), 1) << trial;
  }
}

TEST(Stability, TheMapOfAPeriodAndTheCharacteristicEquationAgreeWhereTheCutIsConstant) {
  Random random(22);
  for (int trial = 0; trial < 200; ++trial) {
    const double wn = 2 * std::numbers::pi * 300, pull = wn * wn * std::pow(10, -3 + 3 * random.uniform());
    const double period_s = std::pow(10, -3.5 + 2 * random.uniform()), damping = 2 * wn * 0.03 * random.uniform();
    const auto fewest = static_cast<std::size_t>(3 * 300 * period_s);  // for each wave
    const std::size_t intervals = 5 + fewest + random.below(60);
    DelayedOscillator cut{.damping_per_s = damping,
                          .period_s = period_s,
                          .stiffness_per_s2 = std::vector<double>(intervals, wn * wn + pull),
                          .delayed_per_s2 = std::vector<double>(intervals, pull)};
    const double map = spectral_radius(cut);
    const double equation = spectral_radius_of_constant(damping, wn * wn + pull, pull, period_s, intervals);
    EXPECT_NEAR(map / equation, 1, 1e-8) << trial;
  }
}

TEST(Stability, WithoutACutVibrationFallsAsTheModeDoes) {
  const Mode mode{.k_n_per_m = 1e7, .zeta = 0.02, .fn_hz = 300};
  const double turn_s = 60 / 9000.0;
  const double falls = std::exp(-mode.zeta * 2 * std::numbers::pi * mode.fn_hz * turn_s);
  EXPECT_NEAR(spectral_radius(cut_of(mode, 9000, 0, 40)), falls, 1e-9);
}

TEST(Stability, ATurnOf200WavesIsAnswered) {
  const Mode disc{.k_n_per_m = 1.2e7, .zeta = 0.006, .fn_hz = 500};
  const double limit_mm = limit_of_one_mode(disc, kCuttingForce, 150).depth_mm;
  EXPECT_LT(spectral_radius(cut_of(disc, 150, 0.98 * limit_mm, 12000)), 1);
  EXPECT_GT(spectral_radius(cut_of(disc, 150, 1.02 * limit_mm, 12000)), 1);
}

TEST(Stability, GrowthPastAnyNumberIsRefused) {
  EXPECT_NEAR(spectral_radius_of_constant(0, -9e4, 0, 1, 1000) / std::exp(300), 1, 1e-6);
  try {
    spectral_radius_of_constant(0, -9e6, 0, 1, 1000);
    FAIL();
  } catch (const InputError& error) {
    EXPECT_EQ(error.field(), "period_s");
  }
}

TEST(Stability, RefusalsNameTheField) {
  const auto refused = [](Turning cut) {
    try {
      spectral_radius(cut);
    } catch (const InputError& error) {
      return error.field();
    }
    return std::string("accepted");
  };
  const Turning good = cut_of({.k_n_per_m = 1e7, .zeta = 0.02, .fn_hz = 300}, 9000, 0.1, 40);
  EXPECT_EQ(refused(good), "accepted");
  Turning bad = good;
  bad.intervals = 1;
  EXPECT_EQ(refused(bad), "intervals");
  bad = good;
  bad.mode.mass_kg = NAN;
  EXPECT_EQ(refused(bad), "mass_kg");
  bad = good;
  bad.depth_mm = -1;
  EXPECT_EQ(refused(bad), "depth_mm");
}

}  // namespace
}  // namespace brakewright::chatter
