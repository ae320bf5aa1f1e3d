#include <algorithm>

#include "report/sheet/sheet.hpp"

namespace brakewright::report {

namespace {

constexpr double kPaddingMm = 4;
constexpr double kHeadingMm = 6.2;
constexpr double kCautionsMm = 31;
constexpr double kSeenShare = 0.36;
constexpr TableLook kInstrumentLook{.size_pt = 6, .row_mm = 3.9};
constexpr Type kEntry{.size_pt = 6.4};
constexpr Type kBasis{.size_pt = 5.2, .colour = kQuiet};

double entry_height(Canvas& canvas, double width_mm, int lines, const ReasonContent& entry) {
  return canvas.height_of(width_mm, lines, entry.text, kEntry) + canvas.height_of(width_mm, 1, entry.basis, kBasis) +
         0.9;
}

double entries_height(Canvas& canvas, double width_mm, const std::vector<ReasonContent>& entries) {
  if (entries.empty()) return 4;
  double height = 0;
  for (const ReasonContent& entry : entries) height += entry_height(canvas, width_mm, 3, entry);
  return height;
}

/// Entries under each other; those that do not fit are counted in a last line.
void draw_entries(Canvas& canvas, Box box, const std::vector<ReasonContent>& entries, const std::string& none) {
  if (entries.empty()) {
    canvas.text({box.x_mm, box.y_mm + 3}, box.width_mm, none, {.size_pt = 6.4, .colour = kQuiet});
    return;
  }
  const int lines = entries_height(canvas, box.width_mm, entries) <= box.height_mm ? 3 : 1;
  double y = box.y_mm;
  for (std::size_t k = 0; k < entries.size(); ++k) {
    const double need = entry_height(canvas, box.width_mm, lines, entries[k]);
    const double reserve = k + 1 < entries.size() ? 3 : 0;
    if (y + need + reserve > box.bottom() + 0.3) {
      const std::string rest = std::to_string(entries.size() - k) + (k > 0 ? " more, see the job" : ", see the job");
      canvas.text({box.x_mm, y + 2.2}, box.width_mm, "… and " + rest, {.size_pt = 6, .colour = kQuiet});
      return;
    }
    const double text = canvas.paragraph({box.x_mm, y}, box.width_mm, lines, entries[k].text, kEntry);
    canvas.paragraph({box.x_mm, y + text}, box.width_mm, 1, entries[k].basis, kBasis);
    y += need;
  }
}

double lists_height(Canvas& canvas, const Content& content, double width_mm) {
  const double seen = width_mm * kSeenShare - kPaddingMm;
  double left = kHeadingMm + entries_height(canvas, seen, content.findings);
  if (!content.amendments.empty()) left += kHeadingMm + entries_height(canvas, seen, content.amendments);
  const double right =
      kHeadingMm + table_height(canvas, width_mm * (1 - kSeenShare), content.instruments, kInstrumentLook);
  return std::clamp(std::max(left, right) + 3, 18.0, 46.0);
}

void draw_lists(Canvas& canvas, Box box, const Content& content) {
  const double share = box.width_mm * kSeenShare;
  Box seen{box.x_mm, box.y_mm, share - kPaddingMm, box.height_mm};
  if (!content.amendments.empty()) {
    const double wanted = kHeadingMm + entries_height(canvas, seen.width_mm, content.findings);
    const double later = kHeadingMm + entries_height(canvas, seen.width_mm, content.amendments);
    seen.height_mm = std::min(wanted, std::max(box.height_mm - later, box.height_mm / 2));
    Box amended{seen.x_mm, seen.bottom(), seen.width_mm, box.height_mm - seen.height_mm};
    draw_entries(canvas, draw_heading(canvas, amended, "Amendments after sealing"), content.amendments, "");
  }
  draw_entries(canvas, draw_heading(canvas, seen, "Seen on the parts"), content.findings, "nothing noted");
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
