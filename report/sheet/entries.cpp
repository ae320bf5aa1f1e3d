#include "report/sheet/entries.hpp"

namespace brakewright::report {

namespace {

constexpr double kNoneMm = 4;

double entry_height(Canvas& canvas, double width_mm, const ReasonContent& entry, const EntriesLook& look) {
  return canvas.height_of(width_mm, look.text_lines, entry.text, look.text) +
         canvas.height_of(width_mm, look.basis_lines, entry.basis, look.basis) + look.gap_mm;
}

}  // namespace

double entries_height(Canvas& canvas, double width_mm, const std::vector<ReasonContent>& entries,
                      const EntriesLook& look) {
  double height = entries.empty() ? kNoneMm : 0;
  for (const ReasonContent& entry : entries) height += entry_height(canvas, width_mm, entry, look);
  return height;
}

double draw_entries(Canvas& canvas, Box box, const std::vector<ReasonContent>& entries, const std::string& none,
                    const EntriesLook& look) {
  if (entries.empty()) {
    if (none.empty()) return 0;
    canvas.text({box.x_mm, box.y_mm + 3}, box.width_mm, none, {.size_pt = look.text.size_pt, .colour = kQuiet});
    return kNoneMm;
  }
  const double more = canvas.height_of(box.width_mm, 1, "…", look.basis);
  double y = box.y_mm;
  for (std::size_t k = 0; k < entries.size(); ++k) {
    const double need = entry_height(canvas, box.width_mm, entries[k], look);
    if (y + need + (k + 1 < entries.size() ? more : 0) > box.bottom() + 0.3) {
      const std::string rest = std::to_string(entries.size() - k) + (k > 0 ? " more, see the job" : ", see the job");
      return y + canvas.paragraph({box.x_mm, y}, box.width_mm, 1, "… and " + rest, look.basis) - box.y_mm;
    }
    const double text = canvas.paragraph({box.x_mm, y}, box.width_mm, look.text_lines, entries[k].text, look.text);
    canvas.paragraph({box.x_mm, y + text}, box.width_mm, look.basis_lines, entries[k].basis, look.basis);
    y += need;
  }
  return y - box.y_mm;
}

}  // namespace brakewright::report
