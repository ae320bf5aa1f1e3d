#include <unistd.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <stdexcept>

#include "report/lists/lists.hpp"
#include "shop/times.hpp"

namespace brakewright::report {
namespace {

namespace fs = std::filesystem;

/// A file of its own beside all others, gone when this is.
class PassingFile {
 public:
  PassingFile() {
    std::string name = (fs::temp_directory_path() / "brakewright-list-XXXXXX").string();
    const int opened = ::mkstemp(name.data());
    if (opened < 0) throw std::runtime_error("no file could be made in " + fs::temp_directory_path().string());
    ::close(opened);
    path_ = name;
  }
  ~PassingFile() {
    std::error_code ignored;
    fs::remove(path_, ignored);
  }
  PassingFile(const PassingFile&) = delete;
  PassingFile& operator=(const PassingFile&) = delete;

  const std::string& path() const { return path_; }
  std::string bytes() const {
    std::ifstream in(path_, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

 private:
  std::string path_;
};

void check(lxw_error error) {
  if (error != LXW_NO_ERROR) throw std::runtime_error(std::string("the spreadsheet: ") + lxw_strerror(error));
}

/// Worksheets take 31 characters, none of []:*?/\ and each name once.
std::string sheet_name(const std::string& heading, std::set<std::string>& taken) {
  std::string name;
  for (const char c : heading) {
    if (std::string("[]:*?/\\'").find(c) == std::string::npos && static_cast<unsigned char>(c) < 128) name += c;
  }
  name = name.substr(0, 26);
  if (name.empty()) name = "List";
  std::string unique = name;
  for (int k = 2; !taken.insert(unique).second; ++k) unique = name + " " + std::to_string(k);
  return unique;
}

/// A cell takes 32,767 characters at most.
std::string cell_text(const std::string& text) {
  constexpr std::size_t kMost = 8'000;
  if (text.size() <= kMost) return text;
  std::size_t end = kMost;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
  return text.substr(0, end) + "...";
}

void write_table(lxw_worksheet* sheet, const ListDocument& document, const ListTable& wanted, lxw_format* bold) {
  lxw_row_t row = 0;
  const auto write = [&](lxw_row_t at, lxw_col_t column, const std::string& text, lxw_format* format) {
    check(worksheet_write_string(sheet, at, column, cell_text(text).c_str(), format));
  };
  write(row++, 0, document.title + ": " + document.subject, bold);
  for (const std::string& line : document.lines) write(row++, 0, line, nullptr);
  for (const std::string& stamp : document.stamps) write(row++, 0, stamp, bold);
  ++row;
  std::vector<std::size_t> widths;
  lxw_col_t column = 0;
  for (const TableColumn& one : wanted.table.columns) {
    write(row, column++, one.head, bold);
    widths.push_back(one.head.size());
  }
  worksheet_freeze_panes(sheet, row + 1, 1);
  for (const auto& cells : wanted.table.rows) {
    ++row;
    column = 0;
    for (const std::string& text : cells) {
      write(row, column, text, nullptr);
      if (column < widths.size()) widths[column] = std::max(widths[column], text.size());
      ++column;
    }
  }
  if (wanted.table.rows.empty()) write(row + 1, 0, wanted.table.none, nullptr);
  for (std::size_t k = 0; k < widths.size(); ++k) {
    const double width = static_cast<double>(std::clamp<std::size_t>(widths[k] + 2, 8, 60));
    check(worksheet_set_column(sheet, static_cast<lxw_col_t>(k), static_cast<lxw_col_t>(k), width, nullptr));
  }
}

}  // namespace

std::string list_xlsx(const ListDocument& document) {
  const PassingFile file;
  lxw_workbook* book = workbook_new(file.path().c_str());
  if (book == nullptr) throw std::runtime_error("the spreadsheet could not be begun");
  try {
    lxw_doc_properties properties = {};
    std::string title = document.title + ", " + document.subject;
    std::string author = document.shop_name;
    properties.title = title.data();
    properties.author = author.data();
    properties.created = std::chrono::system_clock::to_time_t(document.made_at);
    check(workbook_set_properties(book, &properties));
    lxw_format* bold = workbook_add_format(book);
    format_set_bold(bold);
    std::set<std::string> taken;
    for (const ListTable& table : document.tables) {
      lxw_worksheet* sheet = workbook_add_worksheet(book, sheet_name(table.heading, taken).c_str());
      if (sheet == nullptr) throw std::runtime_error("the spreadsheet takes no further sheet");
      write_table(sheet, document, table, bold);
    }
  } catch (...) {
    workbook_close(book);
    throw;
  }
  check(workbook_close(book));
  return file.bytes();
}

}  // namespace brakewright::report
