#pragma once

#include "report/canvas/canvas.hpp"
#include "report/content/content.hpp"
#include "report/frame/frame.hpp"

namespace brakewright::report {

/// Between what stands side by side on a sheet.
inline constexpr double kPaddingMm = 4;

/// 1 while nothing is measured, else 2; one more where something was done at the lathe, and one for the car.
int sheet_count(const Content& content);

/// Draws one sheet onto an empty canvas of `size_of(paper)`. @param sheet  1 to sheet_count
void draw_sheet(Canvas& canvas, const Content& content, shop::Paper paper, int sheet);

// The parts of a sheet, each within its box.
void draw_verdict(Canvas& canvas, Box box, const VerdictContent& verdict);
void draw_rotor(Canvas& canvas, Box box, const RotorContent& rotor, bool wide);
void draw_blank_rotor(Canvas& canvas, Box box, const RotorContent& rotor);
void draw_evidence(Canvas& canvas, Box box, const Content& content);
void draw_lathe_work(Canvas& canvas, Box box, const Content& content);
void draw_on_car(Canvas& canvas, Box box, const Content& content);
void draw_footing(Canvas& canvas, Box box, const Content& content);

/// Height of findings, instruments, amendments, cautions and signatures together, in a box of this width.
double footing_height(Canvas& canvas, const Content& content, double width_mm);

}  // namespace brakewright::report
