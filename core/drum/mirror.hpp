#pragma once

#include "core/drum/drum.hpp"

namespace brakewright::drum {

/// The job in the terms of `judge`: what is left to turn away in the place of thickness.
/// @throws InputError for what `judge_drums` refuses
VerdictInput mirrored(const DrumInput& input);

}  // namespace brakewright::drum
