#include <algorithm>

#include "report/sheet/entries.hpp"
#include "report/sheet/sheet.hpp"

namespace brakewright::report {

namespace {

constexpr TableLook kLimitLook{.size_pt = 6.4, .row_mm = 4.3};
constexpr TableLook kListLook{.size_pt = 6.2, .row_mm = 3.8};
constexpr double kCutMm = 33;

Box column(Box area, int index) {
  const double half = area.width_mm / 2;
  return {area.x_mm + half * index + kPaddingMm, area.y_mm + 1.6, half - 2 * kPaddingMm, area.height_mm - 1.6};
}

void draw_limits(Canvas& canvas, Box box, const RotorContent& rotor) {
  const Box rest = draw_heading(canvas, box, rotor.title + ": limits", "as typed, with their sources");
  draw_table(canvas, rest, rotor.limits, kLimitLook);
}

void draw_cut(Canvas& canvas, Box box, const RotorContent& rotor) {
  Box rest = draw_heading(canvas, box, "The cut", rotor.cut_table.rows.empty() ? "" : "in dial marks");
  const double used = draw_table(canvas, rest, rotor.cut_table, kListLook);
  rest.y_mm += used + 0.8;
  rest.height_mm -= used + 0.8;
  const int lines = static_cast<int>(rest.height_mm / 2.6);
  canvas.paragraph({rest.x_mm, rest.y_mm}, rest.width_mm, lines, rotor.cut_note, {.size_pt = 6});
}

void draw_check(Canvas& canvas, Box box, const CheckContent& check) {
  const Box rest = draw_heading(canvas, box, "Check after the cut");
  canvas.text({rest.x_mm, rest.y_mm + 4.4}, rest.width_mm, check.word, {.size_pt = 12, .bold = true});
  EntriesLook look{.text = {.size_pt = 6}, .text_lines = 2, .basis_lines = 2, .gap_mm = 0.6};
  const Box list{rest.x_mm, rest.y_mm + 6.2, rest.width_mm, rest.height_mm - 6.2};
  if (entries_height(canvas, list.width_mm, check.lines, look) > list.height_mm) look.basis_lines = 1;
  draw_entries(canvas, list, check.lines, "", look);
}

void draw_cut_and_check(Canvas& canvas, Box box, const RotorContent& rotor) {
  const double half = box.width_mm / 2;
  draw_cut(canvas, {box.x_mm, box.y_mm, half - 2, box.height_mm - 2}, rotor);
  draw_check(canvas, {box.x_mm + half + 2, box.y_mm, half - 2, box.height_mm - 2}, rotor.check);
}

/// Answers the height used.
double draw_readings(Canvas& canvas, Box box, const RotorContent& rotor) {
  const Box rest = draw_heading(canvas, box, "Readings", rotor.readings_note);
  const double rows = static_cast<double>(std::max<std::size_t>(1, rotor.readings.rows.size()));
  const double row = std::clamp((rest.height_mm - 4.2) / rows, 2.3, 4.6);
  const double size = std::min(rotor.readings.columns.size() > 9 ? 5.8 : 6.8, row * 2.1);
  return kHeadingMm + draw_table(canvas, rest, rotor.readings, {.size_pt = size, .row_mm = row});
}

/// Height that the longer of the readings' tables asks for.
double readings_height(const Content& content) {
  std::size_t rows = 0;
  for (const RotorContent& rotor : content.rotors) rows = std::max(rows, rotor.readings.rows.size());
  return kHeadingMm + 6 + 3.2 * static_cast<double>(rows);
}

/// Ruled lines for a pen, where the sheet has room to spare.
void draw_notes(Canvas& canvas, Box box) {
  constexpr double kStepMm = 7;
  if (box.height_mm < 2.6 * kStepMm) return;
  const Box rest = draw_heading(canvas, box, "Notes by hand");
  for (double y = rest.y_mm + kStepMm; y < box.bottom() - 2; y += kStepMm) {
    canvas.line({rest.x_mm, y}, {rest.right(), y}, kHair, kRule);
  }
}

}  // namespace

void draw_evidence(Canvas& canvas, Box box, const Content& content) {
  double limits = 0;
  for (const RotorContent& rotor : content.rotors) {
    limits = std::max(limits, kHeadingMm + table_height(canvas, column(box, 0).width_mm, rotor.limits, kLimitLook));
  }
  const double cut = std::clamp(box.height_mm - limits - readings_height(content), kCutMm, kCutMm + 12);
  if (content.rotors.size() == 1) {
    const RotorContent& rotor = content.rotors.front();
    const Box left = column(box, 0);
    draw_limits(canvas, {left.x_mm, left.y_mm, left.width_mm, limits}, rotor);
    draw_cut_and_check(canvas, {left.x_mm, left.y_mm + limits, left.width_mm, kCutMm + 8}, rotor);
    const double used = limits + kCutMm + 8;
    draw_notes(canvas, {left.x_mm, left.y_mm + used, left.width_mm, left.height_mm - used});
    draw_readings(canvas, column(box, 1), rotor);
  }
  for (int k = 0; k < 2 && content.rotors.size() > 1; ++k) {
    const RotorContent& rotor = content.rotors[static_cast<std::size_t>(k)];
    Box place = column(box, k);
    draw_limits(canvas, {place.x_mm, place.y_mm, place.width_mm, limits}, rotor);
    draw_cut_and_check(canvas, {place.x_mm, place.y_mm + limits, place.width_mm, cut}, rotor);
    place.y_mm += limits + cut;
    place.height_mm -= limits + cut;
    const double used = draw_readings(canvas, place, rotor) + 3;
    draw_notes(canvas, {place.x_mm, place.y_mm + used, place.width_mm, place.height_mm - used});
  }
  canvas.line({box.centre().x_mm, box.y_mm}, {box.centre().x_mm, box.bottom()}, kThin, kInk);
}

}  // namespace brakewright::report
