#pragma once

#include <string>
#include <vector>

#include "report/canvas/canvas.hpp"

namespace brakewright::report {

struct TableColumn {
  std::string head = {};
  double share = 1;  ///< of the width, relative to the other columns
  Align align = Align::left;
};

struct Table {
  std::vector<TableColumn> columns = {};
  std::vector<std::vector<std::string>> rows = {};  ///< a short row leaves its last cells empty
  std::string none = {};                            ///< said where there is no row
  std::string more = {};  ///< said in place of the rows that do not fit, after their number: "more, see the job"
};

struct TableLook {
  double size_pt = 6.4;
  double row_mm = 3.9;
};

/// Thin-ruled rows from the upper edge of the box down; cells that are too long end in an ellipsis. Rows that do not
/// fit the height are counted in a last line instead. Answers the height used.
double draw_table(Canvas& canvas, Box box, const Table& table, const TableLook& look);

/// Height that the whole table would take.
double table_height(const Table& table, const TableLook& look);

}  // namespace brakewright::report
