#include <algorithm>

#include "report/sheet/sheet.hpp"

namespace brakewright::report {

namespace {

constexpr double kPaddingMm = 4;
constexpr TableLook kLimitLook{.size_pt = 6.4, .row_mm = 4.3};
constexpr TableLook kListLook{.size_pt = 6.2, .row_mm = 3.8};
constexpr double kHeadingMm = 6.2;
constexpr double kCautionsMm = 31;
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
  double y = rest.y_mm + 6.2;
  for (const ReasonContent& line : check.lines) {
    if (y + 4.6 > rest.bottom()) break;
    const int lines = std::min(2, static_cast<int>((rest.bottom() - y - 2.4) / 2.5));
    y += canvas.paragraph({rest.x_mm, y}, rest.width_mm, std::max(1, lines), line.text, {.size_pt = 6});
    y += canvas.paragraph({rest.x_mm, y}, rest.width_mm, 1, line.basis, {.size_pt = 5.2, .colour = kQuiet}) + 0.6;
  }
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

/// Ruled lines for a pen, where the sheet has room to spare.
void draw_notes(Canvas& canvas, Box box) {
  constexpr double kStepMm = 7;
  if (box.height_mm < 2.6 * kStepMm) return;
  const Box rest = draw_heading(canvas, box, "Notes by hand");
  for (double y = rest.y_mm + kStepMm; y < box.bottom() - 2; y += kStepMm) {
    canvas.line({rest.x_mm, y}, {rest.right(), y}, kHair, kRule);
  }
}

double lists_height(const Content& content) {
  const double findings = kHeadingMm + table_height(content.findings, kListLook);
  const double amendments =
      content.amendments.rows.empty() ? 0 : kHeadingMm + table_height(content.amendments, kListLook);
  const double instruments = kHeadingMm + table_height(content.instruments, kListLook);
  return std::clamp(std::max(findings + amendments, instruments) + 3, 18.0, 44.0);
}

void draw_lists(Canvas& canvas, Box box, const Content& content) {
  const double half = box.width_mm * 0.43;
  Box left{box.x_mm, box.y_mm, half - kPaddingMm, box.height_mm};
  if (content.amendments.rows.empty()) {
    draw_table(canvas, draw_heading(canvas, left, "Seen on the parts"), content.findings, kListLook);
  } else {
    const double wanted = kHeadingMm + table_height(content.findings, kListLook);
    const double most = left.height_mm - kHeadingMm - 3 * kListLook.row_mm - 3;
    Box upper = left;
    upper.height_mm = std::min(wanted, std::max(most, left.height_mm / 2));
    draw_table(canvas, draw_heading(canvas, upper, "Seen on the parts"), content.findings, kListLook);
    Box lower{left.x_mm, upper.bottom(), left.width_mm, left.height_mm - upper.height_mm};
    draw_table(canvas, draw_heading(canvas, lower, "Amendments after sealing"), content.amendments, kListLook);
  }
  const Box right{box.x_mm + half, box.y_mm, box.width_mm - half, box.height_mm};
  draw_table(canvas, draw_heading(canvas, right, "Instruments"), content.instruments, kListLook);
}

void draw_cautions(Canvas& canvas, Box box, const Content& content) {
  const Box rest = draw_heading(canvas, box, "Before you act on this sheet");
  double y = rest.y_mm;
  for (const std::string& caution : content.cautions) {
    const int lines = std::clamp(static_cast<int>((rest.bottom() - y) / 2.7), 0, 3);
    if (lines == 0) break;
    canvas.line({rest.x_mm, y + 1.45}, {rest.x_mm + 1.6, y + 1.45}, kBold, kInk);
    y += canvas.paragraph({rest.x_mm + 3, y}, rest.width_mm - 3, lines, caution, {.size_pt = 6.2}) + 0.7;
  }
}

void draw_signatures(Canvas& canvas, Box box) {
  const Box rest = draw_heading(canvas, box, "Signed");
  const double step = rest.height_mm / 2;
  int k = 0;
  for (const char* who : {"worked on by", "checked by"}) {
    const double y = rest.y_mm + step * (k + 1) - 5;
    canvas.line({rest.x_mm, y}, {rest.x_mm + rest.width_mm * 0.64, y}, kThin, kInk);
    canvas.line({rest.x_mm + rest.width_mm * 0.7, y}, {rest.right(), y}, kThin, kInk);
    canvas.text({rest.x_mm, y + 2.6}, rest.width_mm * 0.64, who, {.size_pt = 5.4, .colour = kQuiet});
    canvas.text({rest.x_mm + rest.width_mm * 0.7, y + 2.6}, rest.width_mm * 0.3, "date",
                {.size_pt = 5.4, .colour = kQuiet});
    ++k;
  }
}

}  // namespace

void draw_evidence(Canvas& canvas, Box box, const Content& content) {
  double limits = 0;
  for (const RotorContent& rotor : content.rotors) {
    limits = std::max(limits, kHeadingMm + table_height(rotor.limits, kLimitLook));
  }
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
    draw_cut_and_check(canvas, {place.x_mm, place.y_mm + limits, place.width_mm, kCutMm}, rotor);
    place.y_mm += limits + kCutMm;
    place.height_mm -= limits + kCutMm;
    const double used = draw_readings(canvas, place, rotor) + 3;
    draw_notes(canvas, {place.x_mm, place.y_mm + used, place.width_mm, place.height_mm - used});
  }
  canvas.line({box.centre().x_mm, box.y_mm}, {box.centre().x_mm, box.bottom()}, kThin, kInk);
}

double footing_height(const Content& content) { return lists_height(content) + kCautionsMm + 2; }

void draw_footing(Canvas& canvas, Box box, const Content& content) {
  const double lists = lists_height(content);
  draw_lists(canvas, {box.x_mm, box.y_mm + 1.6, box.width_mm, lists - 1.6}, content);
  const double y = box.y_mm + lists;
  canvas.line({box.x_mm - kPaddingMm, y}, {box.right() + kPaddingMm, y}, kThin, kInk);
  const double half = box.width_mm * 0.6;
  draw_cautions(canvas, {box.x_mm, y + 1.6, half - 3, kCautionsMm - 1.6}, content);
  canvas.line({box.x_mm + half + 1, y}, {box.x_mm + half + 1, box.bottom()}, kThin, kInk);
  draw_signatures(canvas, {box.x_mm + half + 5, y + 1.6, box.width_mm - half - 5, kCautionsMm - 1.6});
}

}  // namespace brakewright::report
