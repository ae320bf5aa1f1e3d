#include "core/bench_sim/cut/sound.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/bench_sim/cut/cut.hpp"
#include "core/chatter/lobes.hpp"
#include "core/spectrum/lines.hpp"
#include "tests/core/bench_sim/flat_part.hpp"
#include "tests/core/bench_sim/refusal.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr double kStepsPerS = 9000;  // 150 turns a minute of 3600 angles

std::vector<float> made(const std::vector<float>& thrust_n, double steps_per_s, const SoundSettings& settings = {}) {
  SoundState state;
  return sound_of(thrust_n, steps_per_s, settings, state);
}

/// Lines of a sound at 22050 samples a second, looked for as if it were slower.
std::vector<SpectralLine> lines_of(const std::vector<float>& sound, std::size_t from) {
  const double slower = 22050 / 1900.0;
  const std::vector<double> samples(sound.begin() + static_cast<std::ptrdiff_t>(from), sound.end());
  auto lines = clear_lines(samples, 1900, {.low_hz = 100 / slower, .high_hz = 5000 / slower});
  std::erase_if(lines, [](const SpectralLine& line) { return line.kind != LineKind::tone; });
  for (SpectralLine& line : lines) line.hz *= slower;
  return lines;
}

double loudness(const std::vector<float>& sound, std::size_t from, std::size_t to) {
  double squares = 0;
  for (std::size_t i = from; i < to; ++i) squares += std::pow(static_cast<double>(sound[i]), 2);
  return std::sqrt(squares / static_cast<double>(to - from));
}

TEST(Sound, NoThrustIsExactSilence) {
  for (const float sample : made(std::vector<float>(9000, 0.0F), kStepsPerS)) EXPECT_EQ(sample, 0);
}

TEST(Sound, ItLastsAsLongAsTheThrust) {
  EXPECT_NEAR(static_cast<double>(made(std::vector<float>(9000, 20.0F), kStepsPerS).size()), 22050, 1);
  EXPECT_NEAR(static_cast<double>(made(std::vector<float>(500, 20.0F), 1000, {.rate_hz = 8000}).size()), 4000, 1);
  EXPECT_TRUE(made({}, kStepsPerS).empty());
}

TEST(Sound, TouchingAHighSpotTicksOnceATurn) {
  SimPart part = flat_part({.angles = 720, .rings = 60, .inner_radius_mm = 90, .ring_step_mm = 0.02});
  for (int ring = 0; ring < part.grid.rings; ++ring) {
    for (int angle = 0; angle < 720; ++angle) {
      part.outboard.height_um[part.grid.at(ring, angle)] =
          static_cast<float>(20 * std::cos(2 * std::numbers::pi * (angle - 360) / 720));
    }
  }
  Cut cut(part, {.outboard = CuttingTool{.nose = {.edge_radius_um = 40}, .tip_um = 15},
                 .feed_mm_per_rev = 0,
                 .start_radius_mm = 90.5});
  std::vector<float> sound;
  SoundState state;
  const double steps_per_s = 720 * 150 / 60.0;
  for (int turn = 0; turn < 6; ++turn) {
    cut.advance(720);
    const auto more = sound_of(in_time_order(cut.trace(Side::outboard).thrust_n, cut.next_angle()), steps_per_s,
                               {.full_scale_n = 1}, state);
    sound.insert(sound.end(), more.begin(), more.end());
  }
  const std::size_t turn = 8820;  // 0.4 s
  ASSERT_GE(sound.size(), 6 * turn - 6);
  for (std::size_t i = 1; i < 5; ++i) {
    const double tick = loudness(sound, i * turn + turn * 2 / 5, i * turn + turn * 3 / 5);
    const double air = loudness(sound, i * turn, i * turn + turn / 4);
    EXPECT_GT(tick, 0.005);
    EXPECT_GT(tick, 100 * air);
  }
}

TEST(Sound, ASteadyCutHissesWithoutATone) {
  const SoundSettings quiet{.full_scale_n = 1000};
  const auto soft = made(std::vector<float>(18000, 10.0F), kStepsPerS, quiet);
  const auto loud = made(std::vector<float>(18000, 40.0F), kStepsPerS, quiet);
  EXPECT_GT(loudness(soft, 22050, 44100), 0.02);
  EXPECT_NEAR(loudness(loud, 22050, 44100) / loudness(soft, 22050, 44100), 2, 0.1);
  EXPECT_TRUE(lines_of(soft, 22050).empty());
}

TEST(Sound, ChatterIsHeardAtTheFrequencyOfItsThrust) {
  std::vector<float> thrust_n;
  for (int i = 0; i < 18000; ++i) {
    const double turn = 2 * std::numbers::pi * std::fmod(523.0 * i / kStepsPerS, 1);
    thrust_n.push_back(20 + 8 * static_cast<float>(std::sin(turn)));
  }
  const auto lines = lines_of(made(thrust_n, kStepsPerS), 0);
  ASSERT_FALSE(lines.empty());
  EXPECT_NEAR(lines.front().hz, 523, 0.5);
}

/// A cut twice as wide as its disc allows.
TEST(Sound, ACutThatChattersSoundsAtTheLobesFrequency) {
  const double rpm = 1200, force_n_per_mm2 = 1000;
  const chatter::Mode disc{.k_n_per_m = 5e6, .zeta = 0.02, .fn_hz = 600};
  const chatter::Limit limit = chatter::limit_of_one_mode(disc, force_n_per_mm2 * 1e6, rpm);
  ASSERT_LT(limit.depth_mm, 0.25);
  SimPart part = flat_part({.angles = 720, .rings = 250, .inner_radius_mm = 90, .ring_step_mm = 0.02});
  Cut cut(part, {.material = {.kc11_n_per_mm2 = force_n_per_mm2, .mc = 0},
                 .outboard = CuttingTool{.nose = sharp(0.8), .tip_um = -120},
                 .disc = {disc},
                 .rpm = rpm,
                 .feed_mm_per_rev = 0.06,
                 .start_radius_mm = 89.5});
  cut.advance(720 * 40);
  std::vector<float> sound;
  SoundState state;
  for (int turn = 0; turn < 25; ++turn) {
    cut.advance(720);
    const auto more = sound_of(in_time_order(cut.trace(Side::outboard).thrust_n, cut.next_angle()), 720 * rpm / 60,
                               {.full_scale_n = 200}, state);
    sound.insert(sound.end(), more.begin(), more.end());
  }
  auto lines = lines_of(sound, 0);
  ASSERT_FALSE(lines.empty());
  const bool heard = std::any_of(lines.begin(), lines.end(), [&](const SpectralLine& line) {
    return std::abs(line.hz / limit.chatter_hz - 1) < 0.05;
  });
  EXPECT_TRUE(heard) << lines.front().hz << " for " << limit.chatter_hz;
}

TEST(Sound, ItIsTheSameForTheSameThrustAndSeedAndStaysWithinFullScale) {
  std::vector<float> thrust_n;
  for (int i = 0; i < 9000; ++i) thrust_n.push_back(i % 7 == 0 ? 1e5F : 0.0F);
  const auto sound = made(thrust_n, kStepsPerS, {.seed = 4});
  EXPECT_EQ(sound, made(thrust_n, kStepsPerS, {.seed = 4}));
  EXPECT_NE(sound, made(thrust_n, kStepsPerS, {.seed = 5}));
  for (const float sample : sound) EXPECT_LE(std::abs(sample), 1);
}

TEST(Sound, PiecesJoinWithoutAClick) {
  SoundState state;
  const std::vector<float> steady(900, 30.0F);
  std::vector<float> sound;
  for (int piece = 0; piece < 20; ++piece) {
    const auto more = sound_of(steady, kStepsPerS, {.hiss_share = 0}, state);
    sound.insert(sound.end(), more.begin(), more.end());
  }
  const std::size_t settled = sound.size() / 2;
  for (std::size_t i = settled; i < sound.size(); ++i) EXPECT_LT(std::abs(sound[i]), 1e-3F);
}

TEST(Sound, RefusalsNameTheirField) {
  const auto refused = [](const std::vector<float>& thrust_n, double steps_per_s, const SoundSettings& settings) {
    return refusal_of([&] { made(thrust_n, steps_per_s, settings); });
  };
  EXPECT_EQ(refused({1}, 0, {}), "out_of_range steps_per_s");
  EXPECT_EQ(refused({NAN}, 9000, {}), "not_finite thrust_n");
  EXPECT_EQ(refused(std::vector<float>(1000, 1.0F), 1, {}), "out_of_range thrust_n");
  EXPECT_EQ(refused({1}, 9000, {.rate_hz = 100}), "out_of_range rate_hz");
  EXPECT_EQ(refused({1}, 9000, {.full_scale_n = 0}), "out_of_range full_scale_n");
  EXPECT_EQ(refused({1}, 9000, {.hiss_share = 2}), "out_of_range hiss_share");
}

}  // namespace
}  // namespace brakewright::bench_sim
