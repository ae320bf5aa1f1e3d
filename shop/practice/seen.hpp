#pragma once

#include "core/practice/run.hpp"

namespace brakewright::shop {

/// What an eye sees of a face: grooves, lips, marks, and new surface beside old. How thick the part is there and how it
/// wobbles is for instruments to tell; so the heights are those over the face's own mean plane (least squares over all
/// points of the picture), in steps of kSeenStepUm.
/// @param face  [ring * angles + angle] over any plane, micrometres; at least 3 angles, evenly round
practice::Picture as_seen(practice::Picture face);

inline constexpr double kSeenStepUm = 2;

}  // namespace brakewright::shop
