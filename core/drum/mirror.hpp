#pragma once

#include "core/drum/drum.hpp"
#include "core/input_error.hpp"

namespace brakewright::drum {

/// One drum in those terms, with what is left to turn away counted from `mirror_mm`.
/// @param mirror_mm  of `mirror_for` of all drums that are to be compared
/// @throws InputError  with a path within the drum, as "readings[2].values_mm[0]"
PartReadings mirrored(const Drum& drum, double mirror_mm);

/// More than any diameter and limit of this drum. @throws InputError as `mirrored`
double mirror_for(const Drum& drum);

/// A refusal of the mirrored job in the caller's own names.
InputError in_drum_words(const InputError& refusal);

/// The job in the terms of `judge`: what is left to turn away in the place of thickness.
/// @throws InputError for what `judge_drums` refuses
VerdictInput mirrored(const DrumInput& input);

}  // namespace brakewright::drum
