#pragma once

#include "core/circle/true_curve.hpp"
#include "core/thickness/check.hpp"

namespace brakewright {

/// Readings after zero and temperature, one entry for each distinct spot.
struct Reduced {
  std::vector<PointMean> points;
  std::vector<double> radii_mm;  ///< of the circles, from the innermost out
  CurvePoints curve;             ///< the same spots, as deviations in um from `centre_mm`
  double centre_mm = 0;          ///< mean of the point means
  double shift_mm = 0;           ///< what 20 C added to the mean
  double scatter_mm = 0;         ///< pooled standard deviation of the repeats; 0 without any
  std::size_t scatter_dof = 0;
  ReadingNoise noise;  ///< of one reading: as stated, or what the repeats show when that is clearly more
  bool scatters_more = false;
};

/// Brings readings to 20 C, less the zero error, and gathers the repeats. The input has been checked.
Reduced reduce(const ThicknessInput& input);

/// Standard uncertainty that all readings of one micrometer on one part share: permissible error (rectangular; it
/// covers the setting of zero) and 2 K of the part's temperature.
double common_u_mm(const Micrometer& micrometer, double thickness_mm);

/// Standard uncertainty of a part's temperature, as far as a shop knows it. Common practice, no source.
inline constexpr double kTemperatureUncertaintyK = 2;

}  // namespace brakewright
