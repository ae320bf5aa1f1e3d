#pragma once

#include <string>

#include "report/canvas/canvas.hpp"

namespace brakewright::report {

/// Draws `text` as a QR code (ISO/IEC 18004, error correction M) with its quiet zone of four modules inside the
/// square. Answers false and draws nothing when the text is empty or too long for one code (over 2331 bytes).
bool draw_qr(Canvas& canvas, Point corner, double side_mm, const std::string& text);

}  // namespace brakewright::report
