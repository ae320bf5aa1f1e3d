#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>

#include "core/input_error.hpp"
#include "core/recording/wav.hpp"
#include "core/spectrum/lines.hpp"

/// Any bytes are a recording or refused as none; of a recording every sample, and every line in it, is finite.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace brakewright;
  try {
    const Recording recording = read_wav({data, size});
    for (const double sample : recording.samples) {
      if (!(std::abs(sample) <= 1)) std::abort();
    }
    for (const SpectralLine& line : clear_lines(recording.samples, recording.rate_hz, {.low_hz = 2, .high_hz = 40})) {
      if (!std::isfinite(line.hz) || !std::isfinite(line.u_hz) || line.hz < 0) std::abort();
    }
  } catch (const InputError& error) {
    if (error.code().empty()) std::abort();
  }
  return 0;
}
