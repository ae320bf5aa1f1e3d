#include <algorithm>

#include "report/sheet/entries.hpp"
#include "report/sheet/sheet.hpp"

namespace brakewright::report {

namespace {

constexpr double kCautionsMm = 31;
constexpr double kSeenShare = 0.36;
constexpr TableLook kInstrumentLook{.size_pt = 6, .row_mm = 3.9};
constexpr EntriesLook kFindings{.gap_mm = 0.9};

/// In fewer lines each where they do not fit as they are.
void draw_list(Canvas& canvas, Box box, const std::vector<ReasonContent>& entries, const std::string& none) {
  EntriesLook look = kFindings;
  if (entries_height(canvas, box.width_mm, entries, look) > box.height_mm) look.text_lines = 1;
  draw_entries(canvas, box, entries, none, look);
}

double lists_height(Canvas& canvas, const Content& content, double width_mm) {
  const double seen = width_mm * kSeenShare - kPaddingMm;
  double left = kHeadingMm + entries_height(canvas, seen, content.findings, kFindings);
  if (!content.amendments.empty()) left += kHeadingMm + entries_height(canvas, seen, content.amendments, kFindings);
  const double right =
      kHeadingMm + table_height(canvas, width_mm * (1 - kSeenShare), content.instruments, kInstrumentLook);
  return std::clamp(std::max(left, right) + 3, 18.0, 46.0);
}

void draw_lists(Canvas& canvas, Box box, const Content& content) {
  const double share = box.width_mm * kSeenShare;
  Box seen{box.x_mm, box.y_mm, share - kPaddingMm, box.height_mm};
  if (!content.amendments.empty()) {
    const double wanted = kHeadingMm + entries_height(canvas, seen.width_mm, content.findings, kFindings);
    const double later = kHeadingMm + entries_height(canvas, seen.width_mm, content.amendments, kFindings);
    seen.height_mm = std::min(wanted, std::max(box.height_mm - later, box.height_mm / 2));
    Box amended{seen.x_mm, seen.bottom(), seen.width_mm, box.height_mm - seen.height_mm};
    draw_list(canvas, draw_heading(canvas, amended, "Amendments after sealing"), content.amendments, "");
  }
  draw_list(canvas, draw_heading(canvas, seen, "Seen on the parts"), content.findings, "nothing noted");
  const Box right{box.x_mm + share, box.y_mm, box.width_mm - share, box.height_mm};
  draw_table(canvas, draw_heading(canvas, right, "Instruments"), content.instruments, kInstrumentLook);
}

void draw_cautions(Canvas& canvas, Box box, const Content& content) {
  const Box rest = draw_heading(canvas, box, "Before you act on this sheet");
  double y = rest.y_mm;
  for (const std::string& caution : content.cautions) {
    const int lines = std::clamp(static_cast<int>((rest.bottom() - y) / 2.6), 0, 3);
    if (lines == 0) break;
    canvas.line({rest.x_mm, y + 1.45}, {rest.x_mm + 1.6, y + 1.45}, kBold, kInk);
    y += canvas.paragraph({rest.x_mm + 3, y}, rest.width_mm - 3, lines, caution, {.size_pt = 6.4}) + 0.8;
  }
}

void draw_signatures(Canvas& canvas, Box box, const std::string& worker) {
  const Box rest = draw_heading(canvas, box, "Signed");
  const double step = rest.height_mm / 2;
  int k = 0;
  const std::string worked = worker.empty() ? "worked on by" : "worked on by: " + worker;
  for (const std::string& who : {worked, std::string("checked by")}) {
    const double y = rest.y_mm + step * (k + 1) - 4.6;
    canvas.line({rest.x_mm, y}, {rest.x_mm + rest.width_mm * 0.64, y}, kThin, kInk);
    canvas.line({rest.x_mm + rest.width_mm * 0.7, y}, {rest.right(), y}, kThin, kInk);
    canvas.text({rest.x_mm, y + 2.6}, rest.width_mm * 0.64, who, {.size_pt = 5.4, .colour = kQuiet});
    canvas.text({rest.x_mm + rest.width_mm * 0.7, y + 2.6}, rest.width_mm * 0.3, "date",
                {.size_pt = 5.4, .colour = kQuiet});
    ++k;
  }
}

}  // namespace

double footing_height(Canvas& canvas, const Content& content, double width_mm) {
  return lists_height(canvas, content, width_mm) + kCautionsMm + 1;
}

void draw_footing(Canvas& canvas, Box box, const Content& content) {
  const double lists = box.height_mm - kCautionsMm - 1;
  draw_lists(canvas, {box.x_mm, box.y_mm + 1.6, box.width_mm, lists - 1.6}, content);
  const double y = box.y_mm + lists;
  canvas.line({box.x_mm - kPaddingMm, y}, {box.right() + kPaddingMm, y}, kThin, kInk);
  const double half = box.width_mm * 0.6;
  draw_cautions(canvas, {box.x_mm, y + 1.6, half - 3, kCautionsMm - 1.6}, content);
  canvas.line({box.x_mm + half + 1, y}, {box.x_mm + half + 1, box.bottom()}, kThin, kInk);
  draw_signatures(canvas, {box.x_mm + half + 5, y + 1.6, box.width_mm - half - 5, kCautionsMm - 1.6},
                  content.title.worker);
}

}  // namespace brakewright::report
