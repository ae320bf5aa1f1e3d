#pragma once

#include "report/canvas/canvas.hpp"
#include "report/content/content.hpp"
#include "shop/entities.hpp"

/// The sheet itself: border with its reference letters, head line, title block.
namespace brakewright::report {

struct SheetSize {
  double width_mm = 210;
  double height_mm = 297;
};

/// A4 is 210 x 297 mm (ISO 216); Letter is 8.5 x 11 in.
SheetSize size_of(shop::Paper paper);

struct SheetPlace {
  int number = 1;
  int count = 1;
  std::string name = {};  ///< what this sheet shows
  shop::Paper paper = shop::Paper::a4;
};

/// Draws border, head line and title block, and answers the free area between them.
Box draw_frame(Canvas& canvas, const TitleContent& title, const SheetPlace& place);

/// A small heading over a thin rule at the upper edge of a box; answers what is left of the box.
Box draw_heading(Canvas& canvas, Box box, const std::string& words, const std::string& aside = "");

}  // namespace brakewright::report
