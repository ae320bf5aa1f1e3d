#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/circle/circle.hpp"
#include "core/thickness/thickness.hpp"

namespace brakewright {

/// One turn of an indicator on a face.
struct RunoutTrace {
  std::vector<double> angles_deg;  ///< [0, 360); repeats of an angle are averaged
  std::vector<double> values_um;   ///< outward positive; any zero
};

/// What is known of the indicator.
struct Indicator {
  double resolution_um = 1;     ///< step of its last digit, > 0
  double repeatability_um = 1;  ///< standard deviation of one reading, >= 0
};

struct RunoutInput {
  RunoutTrace trace;
  Indicator indicator;
  std::optional<double> limit_um;
  double confidence = 0.95;
  std::uint64_t seed = 1;
  std::size_t draws = 20000;
};

struct Runout {
  double runout_um = 0;  ///< the trade's figure: highest less lowest of the means per angle
  double high_deg = 0;   ///< angle of the highest reading
  double low_deg = 0;
  Posterior true_runout_um;  ///< highest less lowest of the face itself on this carrier
  std::optional<double> p_within;
  std::optional<Standing> verdict;
  std::vector<Harmonic> harmonics;
  std::vector<int> blind_orders;
};

/// Reduces the trace of one face to its runout, in the trade's way and as it probably is.
///
/// The runout is that of the face on whatever carries it, hub or arbor: whose it is takes two positions to tell.
/// @throws InputError naming the field: "sizes_differ", "not_finite", "out_of_range", "too_few" below 3 angles
/// Source: methods 2 and 3; the same posterior as for thickness.
Runout reduce_runout(const RunoutInput& input);

}  // namespace brakewright
