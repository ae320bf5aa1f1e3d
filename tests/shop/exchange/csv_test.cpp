#include "shop/exchange/csv.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/input_error.hpp"

namespace brakewright::shop {
namespace {

using Cells = std::vector<std::string>;

std::vector<Cells> cells_of(std::string_view text) {
  std::vector<Cells> rows;
  for (const CsvRow& row : read_csv(text).rows) rows.push_back(row.cells);
  return rows;
}

std::string refusal(std::string_view text) {
  try {
    read_csv(text);
  } catch (const InputError& error) {
    EXPECT_EQ(error.code(), "not_a_table");
    return error.what();
  }
  return "";
}

TEST(Csv, CommasSemicolonsAndTabsAreToldApartByTheFirstLine) {
  const std::vector<Cells> expected = {{"point", "value"}, {"0", "21.23"}};
  EXPECT_EQ(cells_of("point,value\n0,21.23\n"), expected);
  EXPECT_EQ(cells_of("point\tvalue\n0\t21.23"), expected);
  EXPECT_EQ(cells_of("point;value\r\n0;21.23\r\n"), expected);
}

TEST(Csv, ADecimalCommaStaysInItsCellWhereTheSeparatorIsAnother) {
  EXPECT_EQ(cells_of("point;value\n0;21,23\n"), (std::vector<Cells>{{"point", "value"}, {"0", "21,23"}}));
  EXPECT_EQ(cells_of("point,value\n0,\"21,23\"\n"), (std::vector<Cells>{{"point", "value"}, {"0", "21,23"}}));
}

TEST(Csv, AQuotedCellKeepsItsLineEndsAndTheNextRowKnowsItsOwnLine) {
  const CsvTable table = read_csv("note,value\r\n\"first\r\nsecond \"\"loud\"\"\",1\r\nlast,2\r\n");
  ASSERT_EQ(table.rows.size(), 3u);
  EXPECT_EQ(table.rows[1].cells, (Cells{"first\r\nsecond \"loud\"", "1"}));
  EXPECT_EQ(table.rows[1].line, 2);
  EXPECT_EQ(table.rows[2].line, 4);
}

TEST(Csv, AnInchMarkInsideAnUnquotedCellIsNoQuote) {
  EXPECT_EQ(cells_of("point,value\n0,13/16\"\n1,.836\"\n"),
            (std::vector<Cells>{{"point", "value"}, {"0", "13/16\""}, {"1", ".836\""}}));
}

TEST(Csv, AByteOrderMarkASeparatorLineAndBlankRowsAreNoRows) {
  const CsvTable table = read_csv("\xef\xbb\xbfsep=;\r\na;b\r\n\r\n;\r\n1;2\r\n");
  EXPECT_EQ(table.separator, ';');
  ASSERT_EQ(table.rows.size(), 2u);
  EXPECT_EQ(table.rows[1].cells, (Cells{"1", "2"}));
  EXPECT_EQ(table.rows[1].line, 5);
}

TEST(Csv, BytesThatAreNoUtf8AreReadAsOlderSpreadsheetsWroteThem) {
  EXPECT_EQ(cells_of("wert;einheit\n1;\xb5m\n"), (std::vector<Cells>{{"wert", "einheit"}, {"1", "\xc2\xb5m"}}));
  EXPECT_EQ(cells_of("a\n\x80\n"), (std::vector<Cells>{{"a"}, {"\xe2\x82\xac"}}));
}

TEST(Csv, OldMacintoshLineEndsCountAsLines) {
  const CsvTable table = read_csv("a,b\r1,2\r3,4");
  ASSERT_EQ(table.rows.size(), 3u);
  EXPECT_EQ(table.rows[2].line, 3);
}

TEST(Csv, WhatIsNoTableIsRefusedWithItsLine) {
  EXPECT_NE(refusal("a,b\n\"open,1\n2,3\n").find("line 2"), std::string::npos);
  EXPECT_NE(refusal(std::string_view("a,b\n1,\0", 7)).find("line 2: a zero byte"), std::string::npos);
  EXPECT_NE(refusal("\xff\xfe"
                    "a")
                .find("UTF-16"),
            std::string::npos);
  EXPECT_NE(refusal(std::string(250, ',')).find("200 columns"), std::string::npos);
}

TEST(Csv, EmptyTextHasNoRows) {
  EXPECT_TRUE(read_csv("").rows.empty());
  EXPECT_TRUE(read_csv("\n\r\n \n").rows.empty());
}

TEST(Csv, ACellThatASpreadsheetWouldRunIsWrittenAsText) {
  EXPECT_EQ(csv_line(Cells{"=1+1", "@x", "+cmd", "-2+3"}), "'=1+1,'@x,'+cmd,'-2+3\r\n");
  EXPECT_EQ(csv_line(Cells{"=HYPERLINK(\"x\")"}), "\"'=HYPERLINK(\"\"x\"\")\"\r\n");
}

TEST(Csv, ANegativeNumberIsWrittenAsANumber) {
  EXPECT_EQ(csv_line(Cells{"-0.012", "-12,5", "+3"}, ';'), "-0.012;-12,5;+3\r\n");
  EXPECT_EQ(csv_line(Cells{"-12,5"}), "\"-12,5\"\r\n");
}

RC_GTEST_PROP(Csv, WhatIsWrittenIsReadBack, ()) {
  const auto row = *rc::gen::container<Cells>(rc::gen::container<std::string>(
      rc::gen::element('a', 'B', '7', ' ', ',', ';', '\t', '"', '\'', '=', '-', '.', '\n', '\r')));
  RC_PRE(!row.empty());
  Cells wanted;
  const std::string blank = " \t\r\n";
  for (const std::string& cell : row) {
    const auto first = cell.find_first_not_of(blank);
    wanted.push_back(first == std::string::npos ? "" : cell.substr(first, cell.find_last_not_of(blank) - first + 1));
  }
  RC_PRE(wanted[0] != "" && wanted.size() > 1);
  const std::string text = csv_line(Cells(wanted.size(), "h"), ';') + csv_line(wanted, ';');
  const CsvTable table = read_csv(text);
  RC_ASSERT(table.rows.size() == 2u);
  Cells read;
  for (const std::string& cell : table.rows[1].cells) read.emplace_back(unguarded(cell));
  RC_ASSERT(read == wanted);
}

}  // namespace
}  // namespace brakewright::shop
