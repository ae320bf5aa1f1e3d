#include "core/bench_sim/cut/sound.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/bench_sim/cut/tool.hpp"
#include "core/uncertainty/random.hpp"
#include "core/want.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr double kSlowest_hz = 80;
constexpr double kSilent_n = 1e-6;

void check(std::span<const float> thrust_n, double steps_per_s, const SoundSettings& settings) {
  want(steps_per_s, 1e-3, 1e6, "steps_per_s", "must be more than 0, to 1000000");
  want(settings.rate_hz, 4000, 192000, "rate_hz", "must be from 4000 to 192000 samples a second");
  want(settings.full_scale_n, 0.001, 1e6, "full_scale_n", "must be from 0.001 to 1000000 N");
  want(settings.hiss_share, 0, 1, "hiss_share", "must be from 0 to 1");
  want(static_cast<double>(thrust_n.size()) / steps_per_s, 0, 600, "thrust_n", "must be ten minutes at most");
  for (const float n : thrust_n) {
    want(static_cast<double>(n), -1e9, 1e9, "thrust_n", "must be finite, within 1e9 N");
  }
}

/// Towards full scale, never beyond.
double bent(double loudness) { return loudness / (1 + std::abs(loudness)); }

}  // namespace

std::vector<float> sound_of(std::span<const float> thrust_n, double steps_per_s, const SoundSettings& settings,
                            SoundState& state) {
  check(thrust_n, steps_per_s, settings);
  if (thrust_n.empty()) return {};
  const double steps_per_sample = steps_per_s / settings.rate_hz;
  const auto count = static_cast<std::size_t>(static_cast<double>(thrust_n.size()) / steps_per_sample);
  const double turn = 2 * std::numbers::pi * kSlowest_hz / settings.rate_hz;
  const double follow = turn / (1 + turn);
  Random grains(settings.seed, state.samples);
  std::vector<float> sound;
  sound.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double place = std::min(static_cast<double>(i) * steps_per_sample, static_cast<double>(thrust_n.size() - 1));
    const auto before = static_cast<std::size_t>(place);
    const std::size_t after = std::min(before + 1, thrust_n.size() - 1);
    const double a = static_cast<double>(thrust_n[before]), b = static_cast<double>(thrust_n[after]);
    const double thrust = a + (b - a) * (place - static_cast<double>(before));
    state.slow_n += follow * (thrust - state.slow_n);
    if (std::abs(state.slow_n) < kSilent_n && thrust == 0) state.slow_n = 0;
    const double hiss = settings.hiss_share * std::sqrt(std::max(0.0, thrust) / settings.full_scale_n);
    sound.push_back(static_cast<float>(bent((thrust - state.slow_n) / settings.full_scale_n + hiss * grains.normal())));
  }
  state.samples += count;
  return sound;
}

}  // namespace brakewright::bench_sim
