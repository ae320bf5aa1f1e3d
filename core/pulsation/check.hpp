#pragma once

#include "core/pulsation/pulsation.hpp"

namespace brakewright::pulsation {

/// Refuses what `find_pulsation` says it refuses.
/// @throws InputError naming the field
void check(const PulsationInput& input);

}  // namespace brakewright::pulsation
