#pragma once

#include <span>
#include <vector>

#include "core/refit/refit.hpp"

namespace brakewright::refit {

/// A wave of the sum as a pair of coefficients.
struct Wave {
  int order = 0;
  double cosine = 0, sine = 0;
};

/// Hub and turned part as one list of waves, orders ascending; order 1 is always there.
std::vector<Wave> summed(std::span<const Harmonic> hub, std::span<const Harmonic> part, double turn_deg);

/// Peak to valley between grid points too, and the half degree at which the curve is highest.
double runout_of(const std::vector<Wave>& waves);
double high_of(const std::vector<Wave>& waves);

/// The part in one position, or with one plate, as it can be fitted.
struct Fitting {
  int position = 0;
  std::optional<std::size_t> plate = {};
  int plate_position = 0;
};

/// Amplitude of the tilt that a plate adds at the radius of reading; 0 without a plate.
double tilt_um(const RefitInput& input, std::optional<std::size_t> plate);

/// The waves of one fitting.
std::vector<Wave> waves_of(const RefitInput& input, const Fitting& fitting);

/// The fitting with this plate that leaves the least runout.
Fitting best_with_plate(const RefitInput& input, std::size_t plate);

}  // namespace brakewright::refit
