#include "core/verdict/uncut_limits.hpp"

namespace brakewright {

UncutLimits uncut_limits(const PartReadings& part, double centre_mm) {
  UncutLimits limits;
  if (part.limits.variation) limits.variation_um = part.limits.variation->value_mm * 1000;
  if (part.limits.discard) limits.discard_um = (part.limits.discard->value_mm - centre_mm) * 1000;
  return limits;
}

void note_as_it_is(const std::vector<Extremes>& circles, const Lanes& common, const UncutLimits& limits,
                   std::vector<std::uint8_t>& holds) {
  Lanes variation = circles[0].highest - circles[0].lowest;
  Lanes lowest = circles[0].lowest;
  for (const Extremes& ends : circles) {
    variation = larger(variation, ends.highest - ends.lowest);
    lowest = smaller(lowest, ends.lowest);
  }
  const auto variations = variation.array();
  const auto lows = (lowest + common).array();
  for (std::size_t l = 0; l < kLanes; ++l) {
    holds.push_back(static_cast<double>(variations[l]) <= limits.variation_um &&
                    static_cast<double>(lows[l]) > limits.discard_um);
  }
}

}  // namespace brakewright
