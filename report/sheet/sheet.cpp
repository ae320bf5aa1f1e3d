#include "report/sheet/sheet.hpp"

namespace brakewright::report {

namespace {

constexpr double kVerdictMm = 40;

Box padded(Box box) { return {box.x_mm + kPaddingMm, box.y_mm, box.width_mm - 2 * kPaddingMm, box.height_mm}; }

void draw_rotors(Canvas& canvas, Box area, const Content& content) {
  const Box inner = padded(area);
  if (content.rotors.size() == 1) {
    if (content.measured) {
      draw_rotor(canvas, inner, content.rotors.front(), true);
    } else {
      draw_blank_rotor(canvas, inner, content.rotors.front());
    }
    return;
  }
  const double half = area.width_mm / 2;
  for (std::size_t k = 0; k < content.rotors.size() && k < 2; ++k) {
    const Box column = padded({area.x_mm + half * static_cast<double>(k), area.y_mm, half, area.height_mm});
    if (content.measured) {
      draw_rotor(canvas, column, content.rotors[k], false);
    } else {
      draw_blank_rotor(canvas, column, content.rotors[k]);
    }
  }
  if (content.rotors.size() > 1) {
    canvas.line({area.centre().x_mm, area.y_mm}, {area.centre().x_mm, area.bottom()}, kThin, kInk);
  }
}

void rule_below(Canvas& canvas, Box area, double y) { canvas.line({area.x_mm, y}, {area.right(), y}, kLine, kInk); }

}  // namespace

int sheet_count(const Content& content) {
  return (content.measured ? 2 : 1) + (content.turned ? 1 : 0) + (content.on_car ? 1 : 0);
}

void draw_sheet(Canvas& canvas, const Content& content, shop::Paper paper, int sheet) {
  const int count = sheet_count(content);
  const bool on_car = content.on_car && sheet == count;
  const bool at_lathe = content.turned && !on_car && sheet == (content.on_car ? count - 1 : count);
  const std::string name = on_car              ? "on the car"
                           : at_lathe          ? "at the lathe"
                           : !content.measured ? "nothing measured yet"
                           : sheet == 1        ? "readings and verdict"
                                               : "limits, evidence, names";
  const Box area = draw_frame(canvas, content.title, {sheet, count, name, paper});
  if (on_car) {
    draw_on_car(canvas, area, content);
    return;
  }
  if (at_lathe) {
    draw_lathe_work(canvas, area, content);
    return;
  }
  if (sheet == 1) {
    draw_verdict(canvas, padded({area.x_mm, area.y_mm, area.width_mm, kVerdictMm}), content.verdict);
    rule_below(canvas, area, area.y_mm + kVerdictMm);
    Box rest{area.x_mm, area.y_mm + kVerdictMm, area.width_mm, area.height_mm - kVerdictMm};
    if (!content.measured) {
      const double footing = footing_height(canvas, content, area.width_mm - 2 * kPaddingMm);
      draw_footing(canvas, padded({area.x_mm, area.bottom() - footing, area.width_mm, footing}), content);
      rule_below(canvas, area, area.bottom() - footing);
      rest.height_mm -= footing;
    }
    draw_rotors(canvas, rest, content);
    return;
  }
  const double footing = footing_height(canvas, content, area.width_mm - 2 * kPaddingMm);
  draw_evidence(canvas, {area.x_mm, area.y_mm, area.width_mm, area.height_mm - footing}, content);
  rule_below(canvas, area, area.bottom() - footing);
  draw_footing(canvas, padded({area.x_mm, area.bottom() - footing, area.width_mm, footing}), content);
}

}  // namespace brakewright::report
