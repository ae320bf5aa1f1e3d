#pragma once

#include <span>
#include <vector>

#include "core/circle/circle.hpp"

namespace brakewright::circle {

/// Readings gathered by distinct angle, in order of angle.
struct AngleGroups {
  std::vector<double> angles_deg;  ///< in [0, 360), ascending, more than 1e-6 apart
  std::vector<double> means_um;
  std::vector<double> counts;
  double within_ss_um2 = 0.0;  ///< of the readings about their angle's mean
  double readings = 0.0;
  bool even = false;  ///< same step all round and the same count at each
};

/// @throws InputError as fit_circle does
AngleGroups gather(const Trace& trace);

/// Angle modulo 360, in [0, 360).
double wrapped_deg(double angle_deg);

/// Whether ascending angles are a whole turn in equal steps, to 1e-10 degree.
bool evenly_spaced(std::span<const double> ascending_deg);

/// Distinct angles in [0, 360), ascending. @throws InputError for angles that are none
std::vector<double> distinct_angles(std::span<const double> angles_deg);

}  // namespace brakewright::circle
