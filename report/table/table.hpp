#pragma once

#include <string>
#include <vector>

#include "report/canvas/canvas.hpp"

namespace brakewright::report {

struct TableColumn {
  std::string head = {};
  double share = 1;  ///< of the width, relative to the other columns; none is narrower than its head
  Align align = Align::left;
  int lines = 1;       ///< a longer cell goes on in so many lines
  bool whole = false;  ///< never narrower than its widest cell, to a third of the table
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

/// Thin-ruled rows from the upper edge of the box down; cells that are too long for their lines end in an ellipsis.
/// Rows that do not fit the height are counted in a last line instead. Answers the height used.
double draw_table(Canvas& canvas, Box box, const Table& table, const TableLook& look);

/// Height that the whole table would take.
double table_height(Canvas& canvas, double width_mm, const Table& table, const TableLook& look);

}  // namespace brakewright::report
