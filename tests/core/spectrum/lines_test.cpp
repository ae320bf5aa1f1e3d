#include "core/spectrum/lines.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright {
namespace {

double turn(double hz, double t_s) { return 2 * std::numbers::pi * hz * t_s; }

/// A tone in noise of standard deviation 0.1.
std::vector<double> tone(double hz, double size, double rate_hz, double length_s, Random& random) {
  std::vector<double> samples(static_cast<std::size_t>(rate_hz * length_s));
  for (std::size_t i = 0; i < samples.size(); ++i) {
    samples[i] = size * std::cos(turn(hz, static_cast<double>(i) / rate_hz) + 1) + 0.1 * random.normal();
  }
  return samples;
}

/// Noise that grows louder and softer.
std::vector<double> rumble(double hz, double depth, double rate_hz, double length_s, Random& random) {
  std::vector<double> samples(static_cast<std::size_t>(rate_hz * length_s));
  for (std::size_t i = 0; i < samples.size(); ++i) {
    samples[i] = 0.1 * random.normal() * (1 + depth * std::cos(turn(hz, static_cast<double>(i) / rate_hz)));
  }
  return samples;
}

TEST(Lines, ATonesFrequencyComesOutWithinItsUncertainty) {
  Random random(3);
  int within = 0;
  constexpr int kTrials = 200;
  for (int n = 0; n < kTrials; ++n) {
    const double hz = 5 + 40 * random.uniform();
    const auto lines = clear_lines(tone(hz, 0.05, 1000, 10, random), 1000);
    ASSERT_FALSE(lines.empty());
    EXPECT_EQ(lines[0].kind, LineKind::tone);
    EXPECT_NEAR(lines[0].hz, hz, 0.05);
    EXPECT_GT(lines[0].snr_db, 20);
    within += std::abs(lines[0].hz - hz) < 2 * lines[0].u_hz;
  }
  EXPECT_GE(within, kTrials * 9 / 10);
}

TEST(Lines, TheRateAtWhichARumbleSwellsComesOut) {
  Random random(4);
  for (const double hz : {4.3, 12.7, 25.0}) {
    const auto lines = clear_lines(rumble(hz, 0.5, 16000, 20, random), 16000);
    ASSERT_FALSE(lines.empty()) << hz;
    EXPECT_EQ(lines[0].kind, LineKind::modulation);
    EXPECT_NEAR(lines[0].hz, hz, 0.05);
  }
}

TEST(Lines, NoiseAloneHardlyEverShowsAClearLine) {
  Random random(5);
  int found = 0;
  for (int n = 0; n < 400; ++n) found += !clear_lines(tone(10, 0, 1000, 8, random), 1000).empty();
  EXPECT_LE(found, 6);
}

TEST(Lines, SilenceAndASteadyOffsetShowNone) {
  EXPECT_TRUE(clear_lines(std::vector<double>(4000, 0), 1000).empty());
  EXPECT_TRUE(clear_lines(std::vector<double>(4000, 0.7), 1000).empty());
}

TEST(Lines, ASpeedThatIsNotHeldWidensTheUncertainty) {
  Random random(6);
  std::vector<double> held = tone(15, 0.2, 1000, 20, random), drifting(held.size());
  for (std::size_t i = 0; i < drifting.size(); ++i) {
    const double t = static_cast<double>(i) / 1000;
    drifting[i] = 0.2 * std::cos(turn(14.5, t) + turn(0.025, t) * t) + 0.1 * random.normal();
  }
  const auto steady = clear_lines(held, 1000), moving = clear_lines(drifting, 1000);
  ASSERT_FALSE(steady.empty());
  ASSERT_FALSE(moving.empty());
  EXPECT_GT(moving[0].u_hz, 5 * steady[0].u_hz);
  EXPECT_NEAR(moving[0].hz, 15, 0.7);
}

TEST(Lines, TooShortOrTooSlowIsRefused) {
  const auto refusal = [](std::size_t count, double rate_hz) -> std::string {
    try {
      clear_lines(std::vector<double>(count, 0), rate_hz);
    } catch (const InputError& error) {
      return error.code() + " " + error.field();
    }
    return "accepted";
  };
  EXPECT_EQ(refusal(999, 1000), "too_few samples");
  EXPECT_EQ(refusal(999, 10), "out_of_range rate_hz");
  EXPECT_EQ(refusal(1000, 1000), "accepted");
}

}  // namespace
}  // namespace brakewright
