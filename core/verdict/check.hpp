#pragma once

#include "core/verdict/verdict.hpp"

namespace brakewright {

/// Refuses what is wrong with a job as a whole: limits against each other, lathe, rates. Readings are refused where
/// they are reduced.
/// @throws InputError naming the field
void check(const VerdictInput& input);

/// The limits of one part, each alone and against each other.
/// @throws InputError naming `limits.machine_to.value_mm`, ...
void check(const PartLimits& limits);

}  // namespace brakewright
