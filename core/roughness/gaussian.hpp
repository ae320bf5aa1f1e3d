#pragma once

#include <span>
#include <vector>

namespace brakewright::roughness {

/// sqrt(ln 2/pi): makes the filter pass half of a wave as long as its cut-off.
inline constexpr double kAlpha = 0.46971863934982566;

/// Weight of a point at a distance from the middle; its integral over all distances is 1.
/// @param distance_mm  finite
/// @param cutoff_mm    > 0
/// @return per mm
/// Source: ISO 16610-21:2011, s(x) = exp(-pi (x/(alpha lc))^2)/(alpha lc).
double gaussian_weight(double distance_mm, double cutoff_mm);

/// Share of a wave's height that stays in the mean line; 1 less this stays in the roughness.
/// @param wavelength_over_cutoff  > 0
/// Source: ISO 16610-21:2011, exp(-pi (alpha lc/l)^2).
double mean_line_share(double wavelength_over_cutoff);

/// The mean line of a profile: its heights, each one averaged with its neighbours by the Gaussian weight.
///
/// The weights are sampled at the points and scaled to a sum of 1; those further than one and a half cut-offs, under
/// 1e-14 of the highest, are left out. Where the profile ends within their reach, the line is the straight one that
/// fits the points that are there best under the same weights: so a profile that leans, or is flat, is its own mean
/// line up to both ends, and far from the ends this is the plain filter. What stands within half a cut-off of an end
/// still is worth less than the rest.
/// @param z           finite heights, evenly spaced
/// @param spacing_um  > 0, at most a fourth of the cut-off: there the sampling moves what passes by under 2e-5
/// @param cutoff_um   > 0
/// @return as many heights as there are in z
/// Source: ISO 16610-21:2011; at the ends ISO 16610-28, where the first two moments are retained (from memory). By FFT,
/// so that its time grows as n log n.
std::vector<double> mean_line(std::span<const double> z, double spacing_um, double cutoff_um);

}  // namespace brakewright::roughness
