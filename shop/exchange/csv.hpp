#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Tables as spreadsheets write and read them (RFC 4180, and what spreadsheets do beside it).
namespace brakewright::shop {

struct CsvRow {
  std::int64_t line = 0;  ///< on which the row begins, from 1, so that a refusal can be found in an editor
  std::vector<std::string> cells;
};

struct CsvTable {
  char separator = ',';
  std::vector<CsvRow> rows;  ///< without rows in which every cell is blank
};

/// Splits a table into cells.
///
/// Takes a byte order mark, CR, LF and CRLF, quoted cells with doubled quotes and line ends inside, and a first line
/// `sep=;`. The separator is the one of tab, semicolon and comma that the first line has most of outside quotes; a
/// lone column has none. A quote inside an unquoted cell is an ordinary character, since people write `13/16"`. Bytes
/// that are no UTF-8 are read as Windows-1252, the way older spreadsheets save. Outer white space of a cell goes.
/// @throws InputError "not_a_table" (field empty, the line in the message) for a quoted cell without an end, a zero
///         byte, UTF-16, more than 200 columns or more than 200,000 rows
/// Degenerate case: empty text has no rows.
CsvTable read_csv(std::string_view bytes);

/// One line with CRLF. A cell with the separator, a quote or a line end is quoted. A cell that a spreadsheet would
/// run as a formula (first character = + - @, tab or CR) gets an apostrophe in front unless it is a plain number.
/// @param separator  ',' or ';' or a tab
std::string csv_line(std::span<const std::string> cells, char separator = ',');

/// The cell without the apostrophe that `csv_line` put in front of it, so that what was written is read back.
std::string_view unguarded(std::string_view cell);

}  // namespace brakewright::shop
