#pragma once

#include "core/thickness/thickness.hpp"

namespace brakewright {

/// Refuses what `reduce_thickness` says it refuses.
/// @throws InputError naming the field
void check(const ThicknessInput& input);

/// Readings whose angles differ by less are of one spot.
inline constexpr double kSameAngleDeg = 1e-6;

/// Spots by circle, from the innermost out; circles are apart when their radii differ by more than 0.01 mm.
struct Circles {
  std::vector<double> radii_mm;         ///< 0 for readings that carry none
  std::vector<std::size_t> of_reading;  ///< which circle each of the readings is on
};

/// @throws InputError "sizes_differ" when some readings carry a radius and others none
Circles circles_of(const std::vector<ThicknessPoint>& readings);

}  // namespace brakewright
