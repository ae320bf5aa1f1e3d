#pragma once

#include <functional>
#include <string>
#include <string_view>
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
  std::string label = {};           ///< drawn under the section, with a line to the piece; empty: none
};

struct StackSection {
  std::vector<StackShape> shapes = {};
  std::string none = {};  ///< said where there is no stack
};

/// Where millimetres of the section come to lie on the sheet.
struct StackFrame {
  double scale = 0;    ///< 0 where there is nothing to draw
  double left_mm = 0;  ///< of the section's own 0 along the arbor
  double axis_mm = 0;
  double foot_mm = 0;  ///< lower edge of the section

  Point at(const Point& of_section, double side) const {
    return {left_mm + scale * of_section.x_mm, axis_mm + side * scale * of_section.y_mm};
  }
};

struct StackLabel {
  std::string text = {};
  Point anchor = {};  ///< on the piece, where nothing that is drawn later covers it
  Box box = {};       ///< of the letters
};

struct StackPlan {
  StackFrame frame = {};
  std::vector<StackLabel> labels = {};  ///< along the arbor; none overlaps another, and none leaves the drawing
};

/// Fits the section and its labels into the box, both directions by one scale. Labels that have no room in one row
/// stand in further ones; more than three rows are not made, and what has no room there goes without.
/// @param width_of  of a label's letters, millimetres
StackPlan plan_stack(Box box, const StackSection& section, const std::function<double(std::string_view)>& width_of);

void draw_stack(Canvas& canvas, Box box, const StackSection& section);

}  // namespace brakewright::report
