#include "report/sheet/column.hpp"

#include <algorithm>

#include "report/frame/frame.hpp"

namespace brakewright::report {

void Column::take(double height_mm) {
  box_.y_mm += height_mm;
  box_.height_mm -= height_mm;
}

void Column::heading(const std::string& words, const std::string& aside) {
  const Box rest = draw_heading(canvas_, box_, words, aside);
  take(rest.y_mm - box_.y_mm);
}

void Column::paragraph(const std::string& text, int most_lines, const Type& type) {
  if (text.empty()) return;
  const int lines = std::min(most_lines, static_cast<int>(box_.height_mm / kLineMm));
  if (lines > 0) take(canvas_.paragraph({box_.x_mm, box_.y_mm}, box_.width_mm, lines, text, type));
}

void Column::table(const Table& table, const TableLook& look, double most_mm) {
  const Box part{box_.x_mm, box_.y_mm, box_.width_mm, std::min(box_.height_mm, most_mm)};
  take(draw_table(canvas_, part, table, look) + 0.8);
}

void Column::entries(const std::vector<ReasonContent>& entries, const std::string& none, double most_mm) {
  const Box part{box_.x_mm, box_.y_mm, box_.width_mm, std::min(box_.height_mm, most_mm)};
  take(draw_entries(canvas_, part, entries, none, entries_));
}

}  // namespace brakewright::report
