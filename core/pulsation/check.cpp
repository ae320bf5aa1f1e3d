#include "core/pulsation/check.hpp"

#include <string>

#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright::pulsation {
namespace {

void want_count(std::size_t count, std::size_t least, std::size_t most, const char* field, const char* accepted) {
  if (count < least || count > most) throw InputError(count < least ? "too_few" : "out_of_range", field, accepted);
}

void check_corners(const PulsationInput& input) {
  want_count(input.corners.size(), 0, 12, "corners", "at most 12 corners");
  for (std::size_t i = 0; i < input.corners.size(); ++i) {
    const std::string path = "corners[" + std::to_string(i) + "].";
    const Corner& corner = input.corners[i];
    if (corner.name.empty() || corner.name.size() > 200) {
      throw InputError("out_of_range", path + "name", "from 1 to 200 characters");
    }
    if (corner.variation_limit_um) {
      want(*corner.variation_limit_um, 0.1, 1e5, path + "variation_limit_um", "from 0.1 to 100000 um");
    }
    if (corner.runout_um) want(*corner.runout_um, 0, 1e6, path + "runout_um", "from 0 to 1000000 um");
    for (std::size_t k = 0; k < corner.variation.size(); ++k) {
      const std::string wave = path + "variation[" + std::to_string(k) + "].";
      want(corner.variation[k].order, 1, 100, wave + "order", "from 1 to 100");
      want(corner.variation[k].amplitude_um, 0, 1e6, wave + "amplitude_um", "from 0 to 1000000 um");
    }
  }
}

}  // namespace

void check(const PulsationInput& input) {
  want(input.rolling.mm, 300, 10000, "rolling_circumference_mm", "from 300 to 10000 mm");
  want(input.rolling.low_mm, 300, input.rolling.mm, "rolling_circumference_mm", "from 300 to 10000 mm");
  want(input.rolling.high_mm, input.rolling.mm, 12000, "rolling_circumference_mm", "from 300 to 10000 mm");
  want_count(input.observations.size(), 1, 20, "observations", "from 1 to 20 observations");
  for (std::size_t i = 0; i < input.observations.size(); ++i) {
    const std::string path = "observations[" + std::to_string(i) + "].";
    const Observation& seen = input.observations[i];
    want(seen.speed_km_per_h, 5, 300, path + "speed_km_per_h", "from 5 to 300 km/h");
    want(seen.u_speed_relative, 0, 0.3, path + "u_speed_percent", "from 0 to 30 per cent");
    want(seen.speed_factor, 0.5, 1.5, path + "speed_from", "a factor from 0.5 to 1.5");
    if (!seen.frequency_hz) continue;
    want(*seen.frequency_hz, 0.2, 200, path + "frequency_hz", "from 0.2 to 200 Hz");
    want(seen.u_frequency_hz, 1e-4, 100, path + "u_frequency_hz", "from 0.0001 to 100 Hz");
  }
  check_corners(input);
  want_count(input.speeds_km_per_h.size(), 0, 50, "speeds_km_per_h", "at most 50 speeds");
  for (std::size_t i = 0; i < input.speeds_km_per_h.size(); ++i) {
    want(input.speeds_km_per_h[i], 1, 500, "speeds_km_per_h[" + std::to_string(i) + "]", "from 1 to 500 km/h");
  }
  if (input.growth) {
    want(input.growth->runout_um, 0, 1e5, "growth.runout_um", "from 0 to 100000 um");
    want(input.growth->runout_limit_um, 0.1, 1e5, "growth.runout_limit_um", "from 0.1 to 100000 um");
    want(input.growth->variation_um, 0, 1e5, "growth.variation_um", "from 0 to 100000 um");
    want(input.growth->variation_limit_um, 0.1, 1e5, "growth.variation_limit_um", "from 0.1 to 100000 um");
  }
  if (input.wear) {
    want(input.wear->thickness_mm, 0.1, 1000, "wear.thickness_mm", "from 0.1 to 1000 mm");
    want(input.wear->u_mm, 0, 10, "wear.u_mm", "from 0 to 10 mm");
    want(input.wear->discard_mm, 0.1, 1000, "wear.discard_mm", "from 0.1 to 1000 mm");
    want(input.wear->rate.mm_per_unit, 1e-6, 100, "wear.mm_per_unit", "from 0.000001 to 100 mm");
    want(input.wear->rate.relative_u, 0, 2, "wear.relative_u", "from 0 to 2");
  }
}

}  // namespace brakewright::pulsation
