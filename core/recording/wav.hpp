#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace brakewright {

/// A recording as one channel, of any scale.
struct Recording {
  double rate_hz = 0;
  std::vector<double> samples;  ///< within +-1, the channels' mean
};

/// Reads a RIFF/WAVE file: PCM of 8, 16, 24 or 32 bits or float of 32, one to eight channels, 100 to 400 000 samples a
/// second, one second to ten minutes. Chunks that are not known are passed over; a data chunk that claims more than is
/// there counts as far as it goes.
/// @throws InputError "not_a_recording", "out_of_range", "not_finite" or "too_few", with an empty field
/// Source: Multimedia Programming Interface and Data Specifications 1.0 (RIFF), from memory.
Recording read_wav(std::span<const std::uint8_t> bytes);

}  // namespace brakewright
