#pragma once

#include <cstdint>
#include <vector>

#include "core/uncertainty/random.hpp"
#include "core/verdict/verdict.hpp"

namespace brakewright {

/// Distance or years until discard, from draws of the thickness and a drawn wear rate; 0 where nothing is left.
WearRoom wear_room(const std::vector<float>& thickness_um, double discard_um, const WearRate& rate, Random& random);

/// The same of a thickness over discard with its standard uncertainty.
WearRoom wear_room(double over_discard_mm, double u_mm, const WearRate& rate, std::uint64_t seed);

}  // namespace brakewright
