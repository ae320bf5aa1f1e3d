#include <algorithm>

#include "report/sheet/column.hpp"
#include "report/sheet/sheet.hpp"

namespace brakewright::report {

namespace {

constexpr double kTraceMm = 44;
constexpr double kReadingsMm = 40;  ///< the most that the table takes
constexpr EntriesLook kCarEntries{
    .text = {.size_pt = 6.4}, .text_lines = 5, .basis = kBasis, .basis_lines = 2, .gap_mm = 0.8};

// The card is to be cut off and taken along: its letters are larger than the sheet's.
constexpr Type kCardText{.size_pt = 8};
constexpr double kCardGapMm = 1.6;
constexpr double kNumberMm = 6;

void draw_part(Canvas& canvas, Column column, const RotorContent& rotor) {
  column.heading(rotor.title + ": on the car", rotor.on_car.any ? "angles from the hub's mark" : "");
  if (!rotor.on_car.any) {
    column.paragraph("nothing read on the car", 1, {.size_pt = 6.4, .colour = kQuiet});
    return;
  }
  const Box room = column.left();
  draw_trace(canvas, {room.x_mm, room.y_mm + 1, room.width_mm, kTraceMm - 2}, rotor.on_car.traces);
  column.take(kTraceMm);
  column.table(rotor.on_car.readings, kFiguresLook, kReadingsMm);
  column.gap();
  column.entries(rotor.on_car.told, "", column.left().height_mm);
  if (rotor.on_car.steps.rows.empty()) return;
  column.gap();
  column.heading("Steps", rotor.on_car.steps_note);
  column.table(rotor.on_car.steps, kWordsLook, column.left().height_mm);
}

double card_height(Canvas& canvas, double width_mm, const DriverCardContent& card) {
  double height = 6.2 + 4 + 2 * kPaddingMm;
  for (const std::string& step : card.steps) {
    height += canvas.height_of(width_mm - kNumberMm, 4, step, kCardText) + kCardGapMm;
  }
  height += canvas.height_of(width_mm, 3, card.watch, kCardText) + kCardGapMm;
  return height + canvas.height_of(width_mm, 3, card.basis, kBasis);
}

void draw_card(Canvas& canvas, Box box, const DriverCardContent& card) {
  canvas.line({box.x_mm, box.y_mm}, {box.right(), box.y_mm}, kThin, kInk, {2.4, 1.4});
  canvas.text({box.x_mm, box.y_mm - 1}, box.width_mm - kPaddingMm, "cut here",
              {.size_pt = 5, .colour = kQuiet, .align = Align::right});
  const Box inner{box.x_mm + kPaddingMm, box.y_mm + kPaddingMm, box.width_mm - 2 * kPaddingMm,
                  box.height_mm - 2 * kPaddingMm};
  canvas.text({inner.x_mm, inner.y_mm + 3.6}, inner.width_mm, card.title, {.size_pt = 11, .bold = true});
  canvas.text({inner.x_mm, inner.y_mm + 7.6}, inner.width_mm, card.of, {.size_pt = 6.4, .colour = kQuiet});
  double y = inner.y_mm + 10.2;
  const double width = inner.width_mm - kNumberMm;
  for (std::size_t k = 0; k < card.steps.size(); ++k) {
    canvas.text({inner.x_mm, y + 3.1}, kNumberMm, std::to_string(k + 1), {.size_pt = 10, .bold = true});
    y += canvas.paragraph({inner.x_mm + kNumberMm, y}, width, 4, card.steps[k], kCardText) + kCardGapMm;
  }
  y += canvas.paragraph({inner.x_mm, y}, inner.width_mm, 3, card.watch, {.size_pt = 8, .bold = true}) + kCardGapMm;
  canvas.paragraph({inner.x_mm, y}, inner.width_mm, 3, card.basis, kBasis);
}

}  // namespace

void draw_on_car(Canvas& canvas, Box box, const Content& content) {
  if (content.card) {
    const double card = std::min(card_height(canvas, box.width_mm - 2 * kPaddingMm, *content.card), box.height_mm / 2);
    draw_card(canvas, {box.x_mm, box.bottom() - card, box.width_mm, card}, *content.card);
    box.height_mm -= card + 2.4;
  }
  const double half = box.width_mm / 2;
  for (std::size_t k = 0; k < content.rotors.size() && k < 2; ++k) {
    const double x = box.x_mm + half * static_cast<double>(k) + kPaddingMm;
    draw_part(canvas, Column(canvas, {x, box.y_mm + 1.6, half - 2 * kPaddingMm, box.height_mm - 1.6}, kCarEntries),
              content.rotors[k]);
  }
  if (content.rotors.size() > 1) {
    canvas.line({box.centre().x_mm, box.y_mm}, {box.centre().x_mm, box.bottom()}, kThin, kInk);
  }
}

}  // namespace brakewright::report
