#pragma once

#include "report/canvas/canvas.hpp"

namespace brakewright::report {

/// A probability as a filled rule from 0 to 1 with a mark at what the shop asks.
/// @param p      0 to 1
/// @param asked  0 to 1; named under the rule
void draw_probability(Canvas& canvas, Box box, double p, double asked);

}  // namespace brakewright::report
