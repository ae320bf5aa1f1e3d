#pragma once

#include <string>
#include <vector>

#include "report/canvas/canvas.hpp"

/// The stack on the arbor in section, to scale: the shoulder at the left, the nut at the right.
namespace brakewright::report {

enum class StackLook { arbor, steel, cone, damping, part, spring };

/// One piece above the axis; below it is drawn the same. Along the arbor from its shoulder and out from its axis,
/// millimetres.
struct StackShape {
  StackLook look = StackLook::steel;
  std::vector<Point> outline = {};  ///< a spring's is its coil, not closed
  std::string label = {};           ///< drawn under the section, in the middle of the piece; empty: none
};

struct StackSection {
  std::vector<StackShape> shapes = {};
  std::string none = {};  ///< said where there is no stack
};

/// Fits the section into the box, both directions by one scale.
void draw_stack(Canvas& canvas, Box box, const StackSection& section);

}  // namespace brakewright::report
