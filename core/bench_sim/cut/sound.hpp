#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace brakewright::bench_sim {

/// How a thrust is made audible.
struct SoundSettings {
  int rate_hz = 22050;       ///< 4000 to 192 000
  double full_scale_n = 60;  ///< thrust, or change of it, that is loud; 0.001 to 1e6
  double hiss_share = 0.25;  ///< of grains breaking, at full scale; 0 to 1
  std::uint64_t seed = 1;    ///< of the grains
};

/// What one piece of sound leaves to the next, so that they join without a click.
struct SoundState {
  std::uint64_t samples = 0;  ///< made so far
  double slow_n = 0;          ///< what of the thrust is too slow to be heard
};

/// What a microphone at the tool would hear of the thrust: a tick where the tool meets the high spot once a turn, the
/// hiss of a steady cut, the tone of chatter.
///
/// The thrust itself, less what is slower than 80 Hz, gives tick and tone; the hiss is white noise as loud as the
/// square root of the thrust, since grains break one by one. Loud sound is bent towards full scale, never cut off. No
/// thrust makes exact silence once the tone has died away. All of it comes from the thrust; nothing is a recording.
/// @param thrust_n        in the order of time, one for each step; finite
/// @param steps_per_s     of the thrust: angles * rpm/60; more than 0, to 1e6
/// @returns samples in -1 to 1, as long as the thrust lasts, give or take one
/// @throws InputError "out_of_range" or "not_finite" naming `thrust_n`, `steps_per_s`, `rate_hz`, `full_scale_n`,
///         `hiss_share`
/// The loudness and the split between tone and hiss are our own, no source.
std::vector<float> sound_of(std::span<const float> thrust_n, double steps_per_s, const SoundSettings& settings,
                            SoundState& state);

}  // namespace brakewright::bench_sim
