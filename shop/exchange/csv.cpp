#include "shop/exchange/csv.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include "core/input_error.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kMostColumns = 200;
constexpr std::size_t kMostRows = 200'000;
constexpr std::string_view kFormulaStarts = "=+-@\t\r";

[[noreturn]] void not_a_table(std::int64_t line, const std::string& what) {
  throw InputError("not_a_table", "", "line " + std::to_string(line) + ": " + what);
}

/// Length of the UTF-8 sequence at `at`, or nothing when there is none.
std::optional<std::size_t> sequence_at(std::string_view bytes, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(bytes[i]); };
  const unsigned char first = byte(at);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
  if (first < 0xc2 || first > 0xf4 || at + length > bytes.size()) return std::nullopt;
  for (std::size_t i = at + 1; i < at + length; ++i) {
    if ((byte(i) & 0xc0) != 0x80) return std::nullopt;
  }
  const bool overlong = (first == 0xe0 && byte(at + 1) < 0xa0) || (first == 0xf0 && byte(at + 1) < 0x90);
  const bool surrogate = first == 0xed && byte(at + 1) >= 0xa0;
  const bool beyond = first == 0xf4 && byte(at + 1) >= 0x90;
  if (overlong || surrogate || beyond) return std::nullopt;
  return length;
}

bool is_utf8(std::string_view bytes) {
  for (std::size_t at = 0; at < bytes.size();) {
    const auto length = sequence_at(bytes, at);
    if (!length) return false;
    at += *length;
  }
  return true;
}

void append_utf8(std::string& text, unsigned code) {
  if (code < 0x80) {
    text += static_cast<char>(code);
  } else if (code < 0x800) {
    text += static_cast<char>(0xc0 | (code >> 6));
    text += static_cast<char>(0x80 | (code & 0x3f));
  } else {
    text += static_cast<char>(0xe0 | (code >> 12));
    text += static_cast<char>(0x80 | ((code >> 6) & 0x3f));
    text += static_cast<char>(0x80 | (code & 0x3f));
  }
}

// Code points of bytes 0x80 to 0x9f; the five that the table leaves open stand for themselves.
// Source: Unicode Consortium, MAPPINGS/VENDORS/MICSFT/WINDOWS/CP1252.TXT (from memory).
constexpr std::array<unsigned, 32> kWindows1252 = {0x20ac, 0x81,   0x201a, 0x192,  0x201e, 0x2026, 0x2020, 0x2021,
                                                   0x2c6,  0x2030, 0x160,  0x2039, 0x152,  0x8d,   0x17d,  0x8f,
                                                   0x90,   0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014,
                                                   0x2dc,  0x2122, 0x161,  0x203a, 0x153,  0x9d,   0x17e,  0x178};

std::string from_windows_1252(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 8);
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    append_utf8(text, byte >= 0x80 && byte < 0xa0 ? kWindows1252[byte - 0x80u] : byte);
  }
  return text;
}

std::string decoded(std::string_view bytes) {
  if (bytes.starts_with("\xff\xfe") || bytes.starts_with("\xfe\xff")) {
    not_a_table(1, "this is UTF-16; save the table as CSV in UTF-8");
  }
  if (bytes.starts_with("\xef\xbb\xbf")) bytes.remove_prefix(3);
  if (const auto zero = bytes.find('\0'); zero != std::string_view::npos) {
    not_a_table(1 + std::count(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(zero), '\n'),
                "a zero byte; this is no text, save the table as CSV");
  }
  return is_utf8(bytes) ? std::string(bytes) : from_windows_1252(bytes);
}

std::string_view trimmed(std::string_view cell) {
  constexpr std::string_view kBlank = " \t\r\n";
  const auto first = cell.find_first_not_of(kBlank);
  if (first == std::string_view::npos) return "";
  return cell.substr(first, cell.find_last_not_of(kBlank) - first + 1);
}

char separator_of(std::string_view text) {
  constexpr std::string_view kSeparators = "\t;,";
  std::array<std::size_t, 3> count{};
  bool quoted = false;
  bool seen = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (!quoted && (c == '\n' || c == '\r')) {
      if (seen) break;
      continue;
    }
    seen = seen || c != ' ';
    const auto which = kSeparators.find(c);
    if (!quoted && which != std::string_view::npos) ++count[which];
  }
  const auto most = std::max_element(count.begin(), count.end());
  return *most == 0 ? ',' : kSeparators[static_cast<std::size_t>(most - count.begin())];
}

class Splitter {
 public:
  Splitter(std::string_view text, char separator, std::int64_t line)
      : text_(text), separator_(separator), line_(line) {}

  std::vector<CsvRow> rows() {
    std::vector<CsvRow> rows;
    while (at_ < text_.size()) {
      CsvRow row = next_row();
      const bool blank = std::all_of(row.cells.begin(), row.cells.end(), [](const auto& cell) { return cell.empty(); });
      if (blank) continue;
      if (rows.size() == kMostRows) not_a_table(row.line, "no more than 200,000 rows are read at once");
      rows.push_back(std::move(row));
    }
    return rows;
  }

 private:
  CsvRow next_row() {
    CsvRow row{.line = line_, .cells = {}};
    while (true) {
      if (row.cells.size() == kMostColumns) not_a_table(row.line, "no more than 200 columns are read");
      row.cells.push_back(next_cell());
      if (at_ == text_.size()) return row;
      const char end = text_[at_++];
      if (end == separator_) continue;
      if (end == '\r' && at_ < text_.size() && text_[at_] == '\n') ++at_;
      ++line_;
      return row;
    }
  }

  bool at_end_of_cell() const {
    return at_ == text_.size() || text_[at_] == separator_ || text_[at_] == '\n' || text_[at_] == '\r';
  }

  std::string next_cell() {
    while (at_ < text_.size() && text_[at_] == ' ' && separator_ != ' ') ++at_;
    std::string cell;
    if (at_ < text_.size() && text_[at_] == '"') cell = quoted_part();
    const std::size_t begin = at_;
    while (!at_end_of_cell()) ++at_;
    cell += text_.substr(begin, at_ - begin);
    return std::string(trimmed(cell));
  }

  std::string quoted_part() {
    const std::int64_t began = line_;
    std::string part;
    for (++at_; at_ < text_.size(); ++at_) {
      const char c = text_[at_];
      if (c == '"') {
        if (at_ + 1 == text_.size() || text_[at_ + 1] != '"') {
          ++at_;
          return part;
        }
        ++at_;
      }
      const bool line_end = c == '\n' || (c == '\r' && (at_ + 1 == text_.size() || text_[at_ + 1] != '\n'));
      if (line_end) ++line_;
      part += c;
    }
    not_a_table(began, "a cell begins with a quote and has none at its end");
  }

  std::string_view text_;
  char separator_;
  std::int64_t line_;
  std::size_t at_ = 0;
};

/// Digits with at most one point or comma, a sign in front: nothing that a spreadsheet would run.
bool is_plain_number(std::string_view cell) {
  if (!cell.empty() && (cell[0] == '-' || cell[0] == '+')) cell.remove_prefix(1);
  std::size_t marks = 0;
  std::size_t digits = 0;
  for (const char c : cell) {
    if (c == '.' || c == ',') {
      ++marks;
    } else if (c >= '0' && c <= '9') {
      ++digits;
    } else {
      return false;
    }
  }
  return digits > 0 && marks <= 1;
}

/// A cell that has an apostrophe in front of such a start gets one more, so that one can always be taken off again.
bool needs_guard(std::string_view cell) {
  cell.remove_prefix(std::min(cell.find_first_not_of('\''), cell.size()));
  return !cell.empty() && kFormulaStarts.find(cell[0]) != std::string_view::npos && !is_plain_number(cell);
}

}  // namespace

CsvTable read_csv(std::string_view bytes) {
  const std::string text = decoded(bytes);
  std::string_view rest = text;
  std::int64_t line = 1;
  CsvTable table;
  if (rest.starts_with("sep=") && rest.size() > 4 && std::string_view(";,\t").find(rest[4]) != std::string_view::npos) {
    table.separator = rest[4];
    rest.remove_prefix(5);
    const auto line_end = rest.find('\n');
    rest.remove_prefix(line_end == std::string_view::npos ? rest.size() : line_end + 1);
    line = 2;
  } else {
    table.separator = separator_of(rest);
  }
  table.rows = Splitter(rest, table.separator, line).rows();
  return table;
}

std::string csv_line(std::span<const std::string> cells, char separator) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) line += separator;
    const std::string cell = (needs_guard(cells[i]) ? "'" : "") + cells[i];
    const bool quoted = cell.find_first_of(std::string("\"\r\n") + separator) != std::string::npos;
    if (!quoted) {
      line += cell;
      continue;
    }
    line += '"';
    for (const char c : cell) line += c == '"' ? std::string("\"\"") : std::string(1, c);
    line += '"';
  }
  return line + "\r\n";
}

std::string_view unguarded(std::string_view cell) {
  return cell.size() > 1 && cell[0] == '\'' && needs_guard(cell.substr(1)) ? cell.substr(1) : cell;
}

}  // namespace brakewright::shop
