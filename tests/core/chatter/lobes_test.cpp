#include "core/chatter/lobes.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::chatter {
namespace {

const Mode kDisc{.k_n_per_m = 1.2e7, .zeta = 0.006, .fn_hz = 520};
constexpr double kForce = 1.5e9;

Mode some_mode(Random& random) {
  return {.k_n_per_m = std::pow(10, 6 + 2 * random.uniform()),
          .zeta = std::pow(10, -3 + 2 * random.uniform()),
          .fn_hz = 50 + 2000 * random.uniform()};
}

/// What is left of 1 + Kf depth G (1 - e^(-i w T)), which is nothing where waves neither grow nor fall.
double residual(std::span<const Mode> modes, const Limit& limit, double rpm) {
  const double turn = 2 * std::numbers::pi * std::fmod(limit.chatter_hz * 60 / rpm, 1);
  const auto memory = std::polar(1.0, -turn);
  return std::abs(1.0 + kForce * limit.depth_mm / 1000 * flexibility_m_per_n(modes, limit.chatter_hz) * (1.0 - memory));
}

TEST(Lobes, TheLimitNeverLiesUnderTheAbsoluteOne) {
  Random random(11);
  for (int trial = 0; trial < 500; ++trial) {
    const Mode mode = some_mode(random);
    const double least_mm = 2 * mode.k_n_per_m * mode.zeta * (1 + mode.zeta) / kForce * 1000;
    const Limit limit = limit_of_one_mode(mode, kForce, 60 * std::pow(10, 3 * random.uniform()));
    EXPECT_GE(limit.depth_mm, least_mm * (1 - 1e-12));
  }
}

TEST(Lobes, AtTheLimitTheWavesNeitherGrowNorFall) {
  Random random(12);
  for (int trial = 0; trial < 500; ++trial) {
    const Mode mode = some_mode(random);
    const double rpm = 60 * std::pow(10, 3 * random.uniform());
    EXPECT_LT(residual({&mode, 1}, limit_of_one_mode(mode, kForce, rpm), rpm), 1e-7);
  }
}

TEST(Lobes, ScanningAllFrequenciesFindsTheClosedFormOfOneMode) {
  Random random(13);
  for (int trial = 0; trial < 300; ++trial) {
    const Mode mode = some_mode(random);
    const double rpm = std::pow(10, 5.5 * random.uniform());
    const Limit closed = limit_of_one_mode(mode, kForce, rpm);
    const auto scanned = limits({&mode, 1}, kForce, {&rpm, 1}).front();
    ASSERT_TRUE(scanned) << rpm;
    EXPECT_NEAR(scanned->depth_mm / closed.depth_mm, 1, 1e-7) << rpm << ' ' << mode.fn_hz << ' ' << mode.zeta;
    EXPECT_EQ(scanned->whole_waves, closed.whole_waves) << rpm;
  }
}

/// Every lobe one after the other on a fine grid of frequencies.
double least_by_brute_force_mm(std::span<const Mode> modes, double rpm, double top_hz) {
  const double turn_s = 60 / rpm;
  double least = INFINITY, phase_before = 0, re_before = 1;
  for (double hz = 1; hz < top_hz; hz += 0.002) {
    const auto g = flexibility_m_per_n(modes, hz);
    const double phase = hz * turn_s - 1.5 - std::arg(g) / std::numbers::pi;
    if (g.real() < 0 && re_before < 0 && std::floor(phase) != std::floor(phase_before) &&
        std::abs(phase - phase_before) < 0.5) {
      least = std::min(least, -1000 / (kForce * (g.real() + re_before)));
    }
    phase_before = phase;
    re_before = g.real();
  }
  return least;
}

TEST(Lobes, SeveralModesGiveTheLeastOfAllLobesOneAfterTheOther) {
  const Mode modes[] = {{.k_n_per_m = 3e7, .zeta = 0.04, .fn_hz = 300},
                        {.k_n_per_m = 1.2e7, .zeta = 0.01, .fn_hz = 520},
                        {.k_n_per_m = 2e7, .zeta = 0.02, .fn_hz = 700, .weight = -0.4}};
  for (const double rpm : {150.0, 700.0, 2300.0, 9000.0, 26000.0}) {
    const auto found = limits(modes, kForce, {&rpm, 1}).front();
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->depth_mm / least_by_brute_force_mm(modes, rpm, 4000), 1, 2e-3) << rpm;
    EXPECT_LT(residual(modes, *found, rpm), 1e-6) << rpm;
  }
}

TEST(Lobes, AtBenchSpeedsTheLobesHaveMergedWithinATenth) {
  for (double rpm = 60; rpm <= 150; rpm += 10) {
    EXPECT_LT(limit_of_one_mode(kDisc, kForce, rpm).depth_mm / absolute_limit({&kDisc, 1}, kForce).depth_mm, 1.1);
  }
}

TEST(Lobes, AStifferOrBetterDampedDiscBearsMoreInProportion) {
  Mode banded = kDisc;
  banded.zeta *= 3;
  const double bare_mm = absolute_limit({&kDisc, 1}, kForce).depth_mm;
  EXPECT_NEAR(absolute_limit({&banded, 1}, kForce).depth_mm / bare_mm, 3 * 1.018 / 1.006, 1e-9);
  EXPECT_NEAR(absolute_limit({&kDisc, 1}, 2 * kForce).depth_mm / bare_mm, 0.5, 1e-12);
}

TEST(Lobes, TheBandOfTheLimitIsThatOfItsPartsInQuadrature) {
  const Band95 band = band_of_absolute_limit({&kDisc, 1}, kForce, {.k = 0.03, .zeta = 0.04, .kf = 0});
  const double limit = absolute_limit({&kDisc, 1}, kForce).depth_mm;
  const double spread = std::hypot(0.03, 0.04 * (1 + 2 * 0.006) / (1 + 0.006));
  EXPECT_NEAR(std::log(band.high_mm / limit), 1.959964 * spread, 1e-6);
  EXPECT_NEAR(band.low_mm * band.high_mm, limit * limit, 1e-12);
}

std::string refused(const Mode& mode, double force, double rpm) {
  try {
    limits({&mode, 1}, force, {&rpm, 1});
  } catch (const InputError& error) {
    return error.field();
  }
  return "accepted";
}

TEST(Lobes, RefusalsNameTheField) {
  EXPECT_EQ(refused(kDisc, kForce, 120), "accepted");
  EXPECT_EQ(refused(kDisc, kForce, 0), "rpm[0]");
  EXPECT_EQ(refused(kDisc, NAN, 120), "kf_n_per_m2");
  EXPECT_EQ(refused({.k_n_per_m = -1, .zeta = 0.1, .fn_hz = 1}, kForce, 120), "modes[0].k_n_per_m");
  EXPECT_EQ(refused({.k_n_per_m = 1e7, .zeta = 0, .fn_hz = 1}, kForce, 120), "modes[0].zeta");
  const Mode opposed[] = {kDisc, {.k_n_per_m = 1.2e7, .zeta = 0.006, .fn_hz = 520, .weight = -1}};
  EXPECT_THROW(absolute_limit(opposed, kForce), InputError);
}

}  // namespace
}  // namespace brakewright::chatter
