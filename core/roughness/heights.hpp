#pragma once

#include <optional>
#include <span>

namespace brakewright::roughness {

/// Height parameters of a profile about its mean, in the unit of its heights.
struct Heights {
  double ra = 0;              ///< arithmetic mean deviation
  double rq = 0;              ///< root mean square deviation
  double rp = 0;              ///< highest peak above the mean
  double rv = 0;              ///< deepest valley below it
  double rt = 0;              ///< rp + rv
  std::optional<double> rsk;  ///< skewness; none of a flat profile
  std::optional<double> rku;  ///< kurtosis, 3 of normal scatter; none of a flat profile
};

/// Of evenly spaced heights, each as it stands: nothing is filtered and no slope is taken out.
/// @param heights  finite, of any scale
/// @throws InputError "missing" with an empty field where there is none
/// Source: ISO 4287:1997, 4.1 and 4.2, as sums over the points (from memory).
Heights heights_of(std::span<const double> heights);

}  // namespace brakewright::roughness
