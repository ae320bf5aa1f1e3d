#include "report/table/table.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace brakewright::report {

namespace {

constexpr double kHeadMm = 3.6;
constexpr double kGapMm = 1.4;
constexpr double kSlackMm = 0.1;  ///< so that rounding never shortens what was measured to fit

struct Placed {
  double x_mm = 0;
  double width_mm = 0;
};

double head_pt(const TableLook& look) { return std::min(5.4, look.size_pt); }

/// The least that each column wants: its head, and all of its widest cell where it is to stay whole.
std::vector<double> least_widths(Canvas& canvas, double width_mm, const Table& table, const TableLook& look) {
  std::vector<double> least;
  for (std::size_t k = 0; k < table.columns.size(); ++k) {
    double width = canvas.width_of(table.columns[k].head, {.size_pt = head_pt(look)});
    for (const auto& row : table.rows) {
      if (!table.columns[k].whole || k >= row.size()) continue;
      width = std::max(width, std::min(canvas.width_of(row[k], {.size_pt = look.size_pt}), width_mm / 3));
    }
    least.push_back(width + kSlackMm + (k + 1 < table.columns.size() ? kGapMm : 0));
  }
  return least;
}

/// The shares, but where a column would be too narrow the others give way, each by what it has to spare.
std::vector<Placed> place(Canvas& canvas, const Box& box, const Table& table, const TableLook& look) {
  const double shares = std::accumulate(table.columns.begin(), table.columns.end(), 0.0,
                                        [](double sum, const TableColumn& column) { return sum + column.share; });
  std::vector<double> widths;
  for (const TableColumn& column : table.columns) widths.push_back(box.width_mm * column.share / shares);
  const std::vector<double> least = least_widths(canvas, box.width_mm, table, look);
  if (std::accumulate(least.begin(), least.end(), 0.0) <= box.width_mm) {
    double wanting = 0, spare = 0;
    for (std::size_t k = 0; k < widths.size(); ++k) {
      (widths[k] < least[k] ? wanting : spare) += std::abs(widths[k] - least[k]);
    }
    for (std::size_t k = 0; k < widths.size() && wanting > 0; ++k) {
      widths[k] = widths[k] < least[k] ? least[k] : widths[k] - (widths[k] - least[k]) * wanting / spare;
    }
  }
  std::vector<Placed> places;
  double x = box.x_mm;
  for (std::size_t k = 0; k < widths.size(); ++k) {
    places.push_back({x, widths[k] - (k + 1 < widths.size() ? kGapMm : 0)});
    x += widths[k];
  }
  return places;
}

double line_mm(Canvas& canvas, const TableLook& look) {
  return canvas.height_of(1000, 1, "Ag", {.size_pt = look.size_pt});
}

double row_height(Canvas& canvas, const std::vector<Placed>& places, const Table& table, std::size_t row,
                  const TableLook& look) {
  const auto& cells = table.rows[row];
  double height = look.row_mm;
  for (std::size_t k = 0; k < places.size() && k < cells.size(); ++k) {
    if (table.columns[k].lines < 2) continue;
    const double text = canvas.height_of(places[k].width_mm, table.columns[k].lines, cells[k],
                                         {.size_pt = look.size_pt, .align = table.columns[k].align});
    height = std::max(height, look.row_mm + text - line_mm(canvas, look));
  }
  return height;
}

std::vector<double> row_heights(Canvas& canvas, const std::vector<Placed>& places, const Table& table,
                                const TableLook& look) {
  std::vector<double> heights;
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    heights.push_back(row_height(canvas, places, table, row, look));
  }
  return heights;
}

/// How many rows there is room for, one more kept for the count of those that are left out.
std::size_t rows_shown(const std::vector<double>& heights, double room_mm, double row_mm) {
  if (std::accumulate(heights.begin(), heights.end(), 0.0) <= room_mm) return heights.size();
  std::size_t shown = 0;
  for (double used = row_mm; shown < heights.size() && used + heights[shown] <= room_mm; ++shown) {
    used += heights[shown];
  }
  return shown;
}

}  // namespace

double table_height(Canvas& canvas, double width_mm, const Table& table, const TableLook& look) {
  if (table.rows.empty()) return kHeadMm + (table.none.empty() ? 0 : look.row_mm);
  const auto heights = row_heights(canvas, place(canvas, {0, 0, width_mm, 0}, table, look), table, look);
  return std::accumulate(heights.begin(), heights.end(), kHeadMm);
}

double draw_table(Canvas& canvas, Box box, const Table& table, const TableLook& look) {
  if (table.rows.empty()) {
    canvas.text({box.x_mm, box.y_mm + 3}, box.width_mm, table.none, {.size_pt = look.size_pt, .colour = kQuiet});
    return table_height(canvas, box.width_mm, table, look);
  }
  const std::vector<Placed> places = place(canvas, box, table, look);
  for (std::size_t k = 0; k < places.size(); ++k) {
    canvas.text({places[k].x_mm, box.y_mm + 2.4}, places[k].width_mm, table.columns[k].head,
                {.size_pt = head_pt(look), .colour = kQuiet, .align = table.columns[k].align});
  }
  double y = box.y_mm + kHeadMm;
  canvas.line({box.x_mm, y}, {box.right(), y}, kLine, kInk);
  const std::vector<double> heights = row_heights(canvas, places, table, look);
  const double room = box.height_mm - kHeadMm + 0.01;
  const std::size_t shown = rows_shown(heights, room, look.row_mm);
  const double above = (look.row_mm - line_mm(canvas, look)) / 2;
  for (std::size_t row = 0; row < shown; ++row) {
    for (std::size_t k = 0; k < places.size() && k < table.rows[row].size(); ++k) {
      canvas.paragraph({places[k].x_mm, y + above}, places[k].width_mm, table.columns[k].lines, table.rows[row][k],
                       {.size_pt = look.size_pt, .align = table.columns[k].align});
    }
    y += heights[row];
    canvas.line({box.x_mm, y}, {box.right(), y}, kHair, kFaint);
  }
  if (shown < table.rows.size() && room >= look.row_mm) {
    canvas.paragraph({box.x_mm, y + above}, box.width_mm, 1,
                     "… and " + std::to_string(table.rows.size() - shown) + " " + table.more,
                     {.size_pt = look.size_pt, .colour = kQuiet});
    y += look.row_mm;
  }
  return y - box.y_mm;
}

}  // namespace brakewright::report
