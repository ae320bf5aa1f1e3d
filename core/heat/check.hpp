#pragma once

#include "core/heat/heat.hpp"

namespace brakewright::heat {

/// Refuses what `heat_of_stop` says it refuses.
/// @throws InputError naming the field
void check(const HeatInput& input);

}  // namespace brakewright::heat
