#pragma once

#include "core/refit/refit.hpp"

namespace brakewright::refit {

/// Refuses what `best_refit` says it refuses.
/// @throws InputError naming the field
void check(const RefitInput& input);

}  // namespace brakewright::refit
