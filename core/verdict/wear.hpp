#pragma once

#include <vector>

#include "core/uncertainty/random.hpp"
#include "core/verdict/verdict.hpp"

namespace brakewright {

/// Distance or years until discard, from draws of the thickness and a drawn wear rate; 0 where nothing is left.
WearRoom wear_room(const std::vector<float>& thickness_um, double discard_um, const WearRate& rate, Random& random);

}  // namespace brakewright
