#pragma once

#include "core/thickness/thickness_study.hpp"
#include "core/verdict/part_study.hpp"

namespace brakewright {

/// Runs through all draws of a drum: its radius as mounted is half of the drawn diameter, with odd lobes and the
/// mounting's eccentricity on top, which no diameter shows. These come from the indicator's trace in the drum on the
/// lathe; without one, the mounting is drawn afresh and three lobes of half the two-lobed share are assumed.
GatheredDraws gather_drum(const VerdictInput& input, const PartReadings& part, std::size_t index,
                          ThicknessStudy& thickness, PartStudy& study);

/// Largest less least of the mean diameters at the depths.
struct Taper {
  double mm = 0;
  std::optional<double> p_within;  ///< absent without a limit or with one depth
};

/// @param mirrored  of the diameters of `part`
Taper taper_of(const Thickness& mirrored, const PartReadings& part, double confidence);

/// Taper and least cut at the readings' own points.
void put_drum_figures(const VerdictInput& input, const PartReadings& part, PartVerdict& verdict);

}  // namespace brakewright
