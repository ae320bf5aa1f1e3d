#pragma once

#include <cstdint>
#include <vector>

#include "core/circle/true_curve.hpp"
#include "core/verdict/verdict.hpp"

namespace brakewright {

/// The part's uncut limits, in um from the draws' centre.
struct UncutLimits {
  double variation_um = 1e30;
  double discard_um = -1e30;
};

UncutLimits uncut_limits(const PartReadings& part, double centre_mm);

/// Notes which draws of an uncut part keep thickness and variation within their limits.
void note_as_it_is(const std::vector<Extremes>& circles, const Lanes& common, const UncutLimits& limits,
                   std::vector<std::uint8_t>& holds);

}  // namespace brakewright
