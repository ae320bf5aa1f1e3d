#include "report/table/table.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace brakewright::report {

namespace {

constexpr double kHeadMm = 3.6;
constexpr double kGapMm = 1.4;

struct Placed {
  double x_mm = 0;
  double width_mm = 0;
};

std::vector<Placed> place(const Box& box, const Table& table) {
  const double shares = std::accumulate(table.columns.begin(), table.columns.end(), 0.0,
                                        [](double sum, const TableColumn& column) { return sum + column.share; });
  std::vector<Placed> places;
  double x = box.x_mm;
  for (const TableColumn& column : table.columns) {
    const double width = box.width_mm * column.share / shares;
    places.push_back({x, width - (&column == &table.columns.back() ? 0 : kGapMm)});
    x += width;
  }
  return places;
}

}  // namespace

double table_height(const Table& table, const TableLook& look) {
  const std::size_t rows = table.rows.empty() && !table.none.empty() ? 1 : table.rows.size();
  return kHeadMm + look.row_mm * static_cast<double>(rows);
}

double draw_table(Canvas& canvas, Box box, const Table& table, const TableLook& look) {
  if (table.rows.empty()) {
    canvas.text({box.x_mm, box.y_mm + 3}, box.width_mm, table.none, {.size_pt = look.size_pt, .colour = kQuiet});
    return table_height(table, look);
  }
  const std::vector<Placed> places = place(box, table);
  for (std::size_t k = 0; k < places.size(); ++k) {
    canvas.text({places[k].x_mm, box.y_mm + 2.4}, places[k].width_mm, table.columns[k].head,
                {.size_pt = std::min(5.4, look.size_pt), .colour = kQuiet, .align = table.columns[k].align});
  }
  double y = box.y_mm + kHeadMm;
  canvas.line({box.x_mm, y}, {box.right(), y}, kLine, kInk);
  const auto room = static_cast<std::size_t>(std::max(0.0, std::floor((box.height_mm - kHeadMm + 0.01) / look.row_mm)));
  const bool all = table.rows.size() <= room;
  const std::size_t shown = all ? table.rows.size() : (room > 0 ? room - 1 : 0);
  const double baseline = look.row_mm / 2 + look.size_pt * 0.125;
  for (std::size_t row = 0; row < shown; ++row) {
    for (std::size_t k = 0; k < places.size() && k < table.rows[row].size(); ++k) {
      canvas.text({places[k].x_mm, y + baseline}, places[k].width_mm, table.rows[row][k],
                  {.size_pt = look.size_pt, .align = table.columns[k].align});
    }
    y += look.row_mm;
    canvas.line({box.x_mm, y}, {box.right(), y}, kHair, kFaint);
  }
  if (!all && room > 0) {
    canvas.text({box.x_mm, y + baseline}, box.width_mm,
                "… and " + std::to_string(table.rows.size() - shown) + " " + table.more,
                {.size_pt = look.size_pt, .colour = kQuiet});
    y += look.row_mm;
  }
  return y - box.y_mm;
}

}  // namespace brakewright::report
