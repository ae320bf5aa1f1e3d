#include "core/disc_modes/tap_ring.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/disc_modes/decay_fit.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::disc_modes {
namespace {

constexpr double kRate_hz = 48000;

struct Struck {
  double hz = 0, zeta = 0, size = 0;
};

/// Half a second of noise, a strike, and the tones that it leaves.
std::vector<double> tap(const std::vector<Struck>& tones, double noise, double length_s, Random& random) {
  std::vector<double> samples(static_cast<std::size_t>(length_s * kRate_hz));
  const auto strike = static_cast<std::size_t>(0.5 * kRate_hz);
  std::vector<double> phases;
  for (std::size_t k = 0; k < tones.size(); ++k) phases.push_back(2 * std::numbers::pi * random.uniform());
  for (std::size_t i = 0; i < samples.size(); ++i) {
    samples[i] = noise * random.normal();
    if (i < strike) continue;
    const double t = static_cast<double>(i - strike) / kRate_hz;
    for (std::size_t k = 0; k < tones.size(); ++k) {
      const double w = 2 * std::numbers::pi * tones[k].hz, damped = w * std::sqrt(1 - tones[k].zeta * tones[k].zeta);
      samples[i] += tones[k].size * std::exp(-tones[k].zeta * w * t) * std::cos(damped * t + phases[k]);
    }
  }
  return samples;
}

const RingingTone* nearest(const TapRing& ring, double hz) {
  const RingingTone* found = nullptr;
  for (const RingingTone& tone : ring.tones) {
    if (found == nullptr || std::abs(tone.hz - hz) < std::abs(found->hz - hz)) found = &tone;
  }
  return found;
}

TEST(DecayFit, TwoDecaysComeBackExactlyWithoutNoise) {
  const std::complex<double> s[] = {{-0.01, 0.3}, {-0.02, 0.38}}, a[] = {{1, 0.2}, {-0.4, 0.3}};
  std::vector<std::complex<double>> signal;
  for (int k = 0; k < 80; ++k) signal.push_back(a[0] * std::exp(s[0] * double(k)) + a[1] * std::exp(s[1] * double(k)));
  const DecayFit fit = fit_decays(signal, 2);
  ASSERT_EQ(fit.parts.size(), 2U);
  for (const Decay& part : fit.parts) {
    const std::size_t which = std::abs(part.s - s[0]) < std::abs(part.s - s[1]) ? 0 : 1;
    EXPECT_LT(std::abs(part.s - s[which]), 1e-9);
    EXPECT_LT(std::abs(part.a - a[which]), 1e-8);
  }
}

TEST(TapRing, TonesOfKnownDampingComeBack) {
  Random random(5);
  const std::vector<Struck> tones = {{840, 0.0012, 0.2}, {2050, 0.0008, 0.3}, {3610, 0.002, 0.1}, {6200, 0.0015, 0.05}};
  const TapRing ring = ring_of_tap(tap(tones, 0.001, 2.5, random), kRate_hz);
  ASSERT_EQ(ring.tones.size(), tones.size());
  for (std::size_t k = 0; k < tones.size(); ++k) {
    EXPECT_NEAR(ring.tones[k].hz, tones[k].hz, 0.05);
    EXPECT_NEAR(ring.tones[k].zeta / tones[k].zeta, 1, 0.02);
    EXPECT_FALSE(ring.tones[k].paired);
  }
  EXPECT_NEAR(ring.begins_s, 0.503, 0.003);
  EXPECT_NEAR(ring.tones[1].level_db, 0, 1e-12);
}

TEST(TapRing, TheUncertaintiesHoldTheTruthAsOftenAsTheySay) {
  Random random(6);
  int hz_within = 0, zeta_within = 0, found = 0;
  constexpr int kTrials = 100;
  for (int trial = 0; trial < kTrials; ++trial) {
    const double hz = 500 + 4000 * random.uniform(), zeta = std::pow(10, -3.3 + 1.2 * random.uniform());
    const TapRing ring = ring_of_tap(tap({{hz, zeta, 0.3}, {hz * 1.9, 0.001, 0.2}}, 0.005, 2, random), kRate_hz);
    const RingingTone* tone = nearest(ring, hz);
    if (tone == nullptr || std::abs(tone->hz - hz) > 5) continue;
    ++found;
    if (std::abs(tone->hz - hz) < 2 * tone->u_hz) ++hz_within;
    if (std::abs(tone->zeta - zeta) < 2 * tone->u_zeta) ++zeta_within;
  }
  EXPECT_GE(found, kTrials - 1);
  EXPECT_GE(hz_within, 0.90 * found);
  EXPECT_GE(zeta_within, 0.90 * found);
}

TEST(TapRing, TwoTonesThatBeatAreToldApart) {
  Random random(7);
  const TapRing ring = ring_of_tap(tap({{1502, 0.0008, 0.2}, {1509, 0.0009, 0.15}}, 0.0005, 2.5, random), kRate_hz);
  ASSERT_EQ(ring.tones.size(), 2U);
  EXPECT_TRUE(ring.tones[0].paired);
  EXPECT_NEAR(ring.tones[0].hz, 1502, 0.1);
  EXPECT_NEAR(ring.tones[1].hz, 1509, 0.1);
  EXPECT_NEAR(ring.tones[0].zeta / 0.0008, 1, 0.03);
  EXPECT_NEAR(ring.tones[1].zeta / 0.0009, 1, 0.03);
}

TEST(TapRing, NoiseAloneAndAHumDoNotRing) {
  Random random(8);
  EXPECT_TRUE(ring_of_tap(tap({}, 0.02, 2, random), kRate_hz).tones.empty());
  auto humming = tap({{1500, 0.001, 0.3}}, 0.001, 2, random);
  for (std::size_t i = 0; i < humming.size(); ++i) {
    humming[i] += 0.02 * std::cos(2 * std::numbers::pi * 700 * static_cast<double>(i) / kRate_hz);
  }
  const TapRing ring = ring_of_tap(humming, kRate_hz);
  ASSERT_EQ(ring.tones.size(), 1U);
  EXPECT_NEAR(ring.tones[0].hz, 1500, 0.1);
  EXPECT_TRUE(ring_of_tap(std::vector<double>(48000, 0.0), kRate_hz).tones.empty());
}

TEST(TapRing, TheRingEndsAtTheNextStrike) {
  Random random(9);
  auto twice = tap({{1500, 0.002, 0.3}}, 0.0005, 2.5, random);
  const auto later = static_cast<std::size_t>(1.0 * kRate_hz);
  for (std::size_t i = twice.size() - 1; i > later; --i) twice[i] += 0.8 * twice[i - later];
  const TapRing ring = ring_of_tap(twice, kRate_hz);
  EXPECT_LT(ring.length_s, 1.01);
  const RingingTone* tone = nearest(ring, 1500);
  ASSERT_NE(tone, nullptr);
  EXPECT_NEAR(tone->zeta / 0.002, 1, 0.01);
}

TEST(TapRing, RefusalsNameTheField) {
  try {
    ring_of_tap(std::vector<double>(1000, 0.1), kRate_hz);
    FAIL();
  } catch (const InputError& error) {
    EXPECT_EQ(error.field(), "samples");
  }
  EXPECT_THROW(ring_of_tap(std::vector<double>(4000, 0.1), 1000), InputError);
}

}  // namespace
}  // namespace brakewright::disc_modes
